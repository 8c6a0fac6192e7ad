#include "report/meter/page/meter_charts.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/fit_quality.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/report/document.hpp"

namespace samelight::report {
namespace {

Series points_at(const std::string& label, std::vector<Point> points, Mark mark, Ink ink) {
    Series series{label, std::move(points), ink, Stroke::solid, mark};
    series.shape = Series::Shape::points;
    return series;
}

Series arrows_of(const std::string& label, Ink ink) {
    Series series{label, {}, ink};
    series.shape = Series::Shape::arrows;
    return series;
}

/// Square limits about all points, a fifth wider than they need.
void square_limits(Plot& plot) {
    Point low = {1e9, 1e9};
    Point high = {-1e9, -1e9};
    for (const Series& series : plot.series) {
        for (const Point& at : series.points) {
            for (std::size_t k = 0; k < 2; ++k) {
                low[k] = std::min(low[k], at[k]);
                high[k] = std::max(high[k], at[k]);
            }
        }
    }
    const double across = 1.2 * std::max({high[0] - low[0], high[1] - low[1], 1e-4});
    plot.x_limits = {0.5 * (low[0] + high[0] - across), 0.5 * (low[0] + high[0] + across)};
    plot.y_limits = {0.5 * (low[1] + high[1] - across), 0.5 * (low[1] + high[1] + across)};
}

/// 1, 2, 5, 10, ...: how many times longer than they are arrows are drawn, the longest about a sixth of the picture.
int lengthening(double longest, double across) {
    int factor = 1;
    for (int step = 0; factor < 1000; ++step) {
        const int next = step % 3 == 1 ? factor / 2 * 5 : factor * 2;
        if (!(longest * next < across / 6.0)) {
            break;
        }
        factor = next;
    }
    return factor;
}

double across_all(const std::vector<ReadColour>& colours) {
    Plot plot{};
    std::vector<Point> points;
    for (const ReadColour& colour : colours) {
        points.push_back(colour.xy);
    }
    plot.series.push_back(points_at("", std::move(points), Mark::disc, Ink::text));
    square_limits(plot);
    return plot.x_limits[1] - plot.x_limits[0];
}

}  // namespace

Chart residuals_chart(const std::vector<PatchResidual>& residuals) {
    Plot plot{"off in x", "off in y", {}, {}, true};
    Series arrows = arrows_of("from without the correction to with it", Ink::accent);
    for (const PatchResidual& r : residuals) {
        arrows.points.push_back({r.before.x, r.before.y});
        arrows.points.push_back({r.after.x, r.after.y});
        arrows.notes.push_back(r.patch);
        arrows.notes.emplace_back();
    }
    plot.series.push_back(points_at("read right", {{0.0, 0.0}}, Mark::ring, Ink::text));
    plot.series.push_back(std::move(arrows));
    square_limits(plot);
    return {"What the correction does",
            "How far off in x and y red, green, blue and white are read: an arrow from without the "
            "correction to with it.",
            std::move(plot)};
}

std::optional<Chart> corrections_chart(const MeterTableAnswer& answer) {
    constexpr std::size_t most = 26;
    if (answer.panels.size() < 2 || answer.panels.size() > most) {
        return {};
    }
    Matrix matrix{answer.panels, {}};
    for (std::size_t i = 0; i < answer.panels.size(); ++i) {
        for (const auto& error : answer.with[i]) {
            matrix.cells.push_back(
                error ? Matrix::Cell{error->white_xy, to_text(error->white_xy, 4)}
                      : Matrix::Cell{std::numeric_limits<double>::quiet_NaN(), ""});
        }
    }
    return Chart{
        "White off in x, y",
        "White off in x, y: each row a display, each column the display that the correction "
        "was made on.",
        std::move(matrix)};
}

std::optional<Chart> prospects_chart(const MeterChooseAnswer& answer,
                                     const assess::ChosenPanel& panel) {
    Bars bars{{"white off"}, {}};
    const auto add = [&](const std::string& name, const ExpectedError& error) {
        bars.rows.push_back({name, {error.white_uv}, {to_text(error.white_uv, 4)}});
    };
    if (panel.choice.none_possible) {
        add("none", panel.choice.none);
    }
    for (std::size_t j = 0; j < answer.corrections.size(); ++j) {
        if (panel.choice.with[j].error) {
            add(answer.corrections[j], *panel.choice.with[j].error);
        }
    }
    if (bars.rows.size() < 2) {
        return {};
    }
    return Chart{"White off on " + panel.choice.panel,
                 "White off in u'v', read with each correction and with none; good enough is " +
                     to_text(answer.limit_uv, 4) + ".",
                 std::move(bars)};
}

std::optional<Chart> left_out_chart(const MeterFitAnswer& answer) {
    const auto& left_out = answer.quality.left_out;
    double longest = 0.0;
    for (const ProvenError& e : left_out) {
        longest = std::max(longest, e.error.xy());
    }
    if (left_out.empty() || answer.colours.empty()) {
        return {};
    }
    const int factor = lengthening(longest, across_all(answer.colours));
    Plot plot{"CIE 1931 x", "y", {}, {}, true};
    Series arrows = arrows_of("a colour left out", Ink::accent);
    for (const ProvenError& e : left_out) {
        const auto read = std::find_if(answer.colours.begin(), answer.colours.end(),
                                       [&](const ReadColour& c) { return c.name == e.patch; });
        if (read != answer.colours.end()) {
            arrows.points.push_back(
                {read->xy[0] + factor * e.error.x, read->xy[1] + factor * e.error.y});
            arrows.points.push_back(read->xy);
            arrows.notes.emplace_back();
            arrows.notes.push_back(e.patch);
        }
    }
    std::vector<Point> others;
    for (const ReadColour& colour : answer.colours) {
        others.push_back(colour.xy);
    }
    plot.series.push_back(points_at("colours read", std::move(others), Mark::cross, Ink::faint));
    plot.series.push_back(std::move(arrows));
    if (answer.white) {
        const auto white = xyY_from_xyz(answer.white->reference);
        plot.series.push_back(points_at("white", {{white[0], white[1]}}, Mark::square, Ink::text));
    }
    square_limits(plot);
    const std::string drawn =
        factor > 1 ? " Arrows are drawn " + std::to_string(factor) + " times as long as they are."
                   : "";
    return Chart{std::string("What remains on colours left out") +
                     (factor > 1 ? ", " + std::to_string(factor) + " times as long as it is" : ""),
                 "For each colour left out an arrow from what the corrected meter says to what the "
                 "reference does." +
                     drawn,
                 std::move(plot)};
}

}  // namespace samelight::report
