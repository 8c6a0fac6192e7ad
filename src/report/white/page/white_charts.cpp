#include "report/white/page/white_charts.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "report/words/light_drawn.hpp"
#include "report/words/people_words.hpp"
#include "samelight/assess/white_answer.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/numeric/statistics.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/report/advice_words.hpp"
#include "samelight/report/document.hpp"
#include "samelight/spectrum/illuminants.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/target.hpp"
#include "samelight/white/uncertainty.hpp"

namespace samelight::report {
namespace {

using WhitePoint = Chromaticity<Cie1931_2deg>;

Point point_of(const WhitePoint& xy) { return {xy.x(), xy.y()}; }

/// The edge of an ellipse.
std::vector<Point> edge_of(const Ellipse& ellipse) {
    constexpr int corners = 72;
    const double turn = ellipse.angle_deg * std::numbers::pi / 180.0;
    std::vector<Point> edge;
    for (int i = 0; i < corners; ++i) {
        const double at = 2.0 * std::numbers::pi * i / corners;
        const double along = ellipse.semi_major * std::cos(at);
        const double across = ellipse.semi_minor * std::sin(at);
        edge.push_back({ellipse.centre[0] + along * std::cos(turn) - across * std::sin(turn),
                        ellipse.centre[1] + along * std::sin(turn) + across * std::cos(turn)});
    }
    return edge;
}

Series marked(const std::string& label, const WhitePoint& xy, Mark mark, Ink ink) {
    Series series{label, {point_of(xy)}, ink, Stroke::solid, mark};
    series.shape = Series::Shape::points;
    return series;
}

/// Daylight from 4,500 to 10,000 K, its temperature beside some of its points.
void add_daylight(Plot& plot) {
    Series line{"daylight", {}, Ink::faint, Stroke::dashed};
    for (double mired = 100.0; mired <= 222.0; mired += 2.0) {
        const DaylightSeries at = daylight_series(1e6 / mired);
        line.points.push_back({at.x, at.y});
    }
    Series ticks{"", {}, Ink::faint, Stroke::solid, Mark::cross};
    ticks.shape = Series::Shape::points;
    for (const int kelvin : {5000, 5500, 6000, 6500, 7000, 8000, 9300}) {
        const DaylightSeries at = daylight_series(kelvin);
        ticks.points.push_back({at.x, at.y});
        ticks.notes.push_back(std::to_string(kelvin) + " K");
    }
    plot.series.push_back(std::move(line));
    plot.series.push_back(std::move(ticks));
}

/// Planck's radiators from 4,500 to 15,000 K, which daylight runs beside.
void add_planck(Plot& plot) {
    const Sampling grid{380.0, 5.0, 81};
    Series line{"Planck's radiators", {}, Ink::faint, Stroke::dotted};
    for (double mired = 66.0; mired <= 222.0; mired += 6.0) {
        line.points.push_back(point_of(chromaticity(
            tristimulus<Cie1931_2deg>(rebin(planckian_radiator(1e6 / mired, grid), grid)))));
    }
    plot.series.push_back(std::move(line));
}

void add_people(const assess::PanelPart& part, Plot& plot) {
    if (!part.population || part.population->sample.size() < 2) {
        return;
    }
    Series people{"what people want", {}, Ink::second, Stroke::solid, Mark::none};
    people.shape = Series::Shape::points;
    people.mark = Mark::dot;
    for (const WhitePoint& xy : part.population->sample) {
        people.points.push_back(point_of(xy));
    }
    plot.series.push_back(std::move(people));
}

/// Where the white to dial in may lie, 19 times in 20.
void add_sureness(const assess::PanelPart& part, Plot& plot) {
    if (!part.budget) {
        return;
    }
    const WhitePoint& xy = part.dialled().xy;
    Series sure{
        "19 times in 20 the right white is within",
        edge_of(coverage_ellipse(
            {xy.x(), xy.y()},
            Covariance(Eigen::Map<const Eigen::Matrix2d>(part.budget->covariance.data())), 0.95)),
        Ink::accent};
    sure.shape = Series::Shape::closed;
    plot.series.push_back(std::move(sure));
}

/// What the white is to whoever sets it.
std::string white_called(const assess::PanelPart& part) {
    return part.advice && part.advice->verdict == Verdict::ask_the_eyes ? "white to begin from"
                                                                        : "white to dial in";
}

void add_whites(const assess::WhiteAnswer& answer, const assess::PanelPart& part, Plot& plot) {
    if (part.targets.native_white) {
        plot.series.push_back(
            marked("native white", *part.targets.native_white, Mark::triangle, Ink::text));
    }
    constexpr std::array<Mark, 4> others = {Mark::diamond, Mark::square, Mark::cross, Mark::dot};
    std::size_t other = 0;
    for (const Target& target : part.targets.targets) {
        if (&target != &part.dialled() && target.in_gamut()) {
            plot.series.push_back(marked(target.observer_title, target.xy,
                                         others.at(other++ % others.size()), Ink::third));
        }
    }
    // A ring around whatever lies where the reference does: the native white often.
    plot.series.push_back(marked("reference", answer.reference.xy(), Mark::ring, Ink::text));
    if (part.viewer_group) {
        Series viewers{"the viewers' own", {}, Ink::third, Stroke::solid, Mark::disc};
        viewers.shape = Series::Shape::points;
        for (std::size_t i = 0; i < answer.viewers.size(); ++i) {
            viewers.points.push_back(point_of(part.viewer_group->people.targets[i].xy));
            viewers.notes.push_back(answer.viewers[i].name);
        }
        plot.series.push_back(std::move(viewers));
    }
    plot.series.push_back(marked(white_called(part), part.dialled().xy, Mark::disc, Ink::accent));
}

/// Limits that hold every white and its surroundings, whatever else is drawn.
void fit_limits(const std::vector<Point>& held, Plot& plot) {
    plot.x_limits = {1.0, 0.0};
    plot.y_limits = {1.0, 0.0};
    for (const Point& at : held) {
        plot.x_limits = {std::min(plot.x_limits[0], at[0]), std::max(plot.x_limits[1], at[0])};
        plot.y_limits = {std::min(plot.y_limits[0], at[1]), std::max(plot.y_limits[1], at[1])};
    }
    constexpr double margin = 0.15;
    constexpr double least = 0.02;  // of x and y: a picture of less shows noise
    const double across =
        std::max({least, (1.0 + 2.0 * margin) * (plot.x_limits[1] - plot.x_limits[0]),
                  (1.0 + 2.0 * margin) * (plot.y_limits[1] - plot.y_limits[0])});
    for (Point* limits : {&plot.x_limits, &plot.y_limits}) {
        const double middle = 0.5 * ((*limits)[0] + (*limits)[1]);
        *limits = {middle - 0.5 * across, middle + 0.5 * across};
    }
}

}  // namespace

Chart spectra_chart(const Panel& panel, const std::string& taken_for) {
    struct Light {
        const char* label;
        Ink ink;
        Stroke stroke;
    };
    // White first, so that the others, of which it is made, lie over it.
    constexpr std::array<Light, 4> lights = {{{"white", Ink::faint, Stroke::solid},
                                              {"red", Ink::red, Stroke::dashed},
                                              {"green", Ink::green, Stroke::dash_dot},
                                              {"blue", Ink::blue, Stroke::dotted}}};
    const Eigen::MatrixXd emitters = panel.emitters();
    const Eigen::VectorXd white = panel.native_white();
    const int step = step_of(white);
    Eigen::MatrixXd drawn(white.size(), 4);
    drawn << white, emitters;
    drawn = averaged(drawn, step);
    const double peak = drawn.maxCoeff();
    Plot plot{"wavelength, nm",
              "light, of the brightest",
              {panel.sampling().first_nm(), panel.sampling().last_nm()},
              {0.0, 1.05}};
    for (std::size_t k = 0; k < lights.size(); ++k) {
        Series line{lights.at(k).label, {}, lights.at(k).ink, lights.at(k).stroke};
        for (Eigen::Index bin = 0; bin < drawn.rows(); ++bin) {
            // A bin begins with the sample that its light stands at.
            line.points.push_back({panel.sampling().wavelength_nm(static_cast<int>(bin) * step),
                                   drawn(bin, static_cast<Eigen::Index>(k)) / peak});
        }
        plot.series.push_back(std::move(line));
    }
    if (!taken_for.empty()) {
        return {"Spectra of the type that it is taken for, not measured here",
                "Light by wavelength of red, green, blue and white of the type " + taken_for +
                    ", bent to what was read of the display.",
                std::move(plot)};
    }
    return {
        "Spectra of its red, green, blue and white",
        "Light by wavelength of the display's red, green, blue and native white, black taken off.",
        std::move(plot)};
}

std::optional<Chart> chromaticity_chart(const assess::WhiteAnswer& answer,
                                        const assess::PanelPart& part) {
    if (part.dialled().outside) {
        return {};
    }
    Plot plot{"CIE 1931 x", "y", {}, {}, true};
    add_people(part, plot);
    add_sureness(part, plot);
    const std::size_t before = plot.series.size();
    add_whites(answer, part, plot);
    std::vector<Point> held;
    for (std::size_t i = 0; i < plot.series.size(); ++i) {
        const bool people = i == 0 && before > 0 && plot.series[i].shape == Series::Shape::points;
        if (!people) {
            held.insert(held.end(), plot.series[i].points.begin(), plot.series[i].points.end());
        }
    }
    fit_limits(held, plot);
    add_daylight(plot);
    add_planck(plot);
    const WhitePoint& xy = part.dialled().xy;
    return Chart{"Near white",
                 "Chromaticities near white: the reference at x " +
                     to_text(answer.reference.xy().x(), 4) + ", y " +
                     to_text(answer.reference.xy().y(), 4) + ", the " + white_called(part) +
                     " at x " + to_text(xy.x(), 4) + ", y " + to_text(xy.y(), 4) +
                     ", how sure it is, and what other people want.",
                 std::move(plot)};
}

Chart budget_chart(const TargetBudget& budget) {
    Bars bars{{"x", "y"}, {}};
    for (const BudgetPart& part : budget.parts) {
        bars.rows.push_back({title_of(part),
                             {part.half_width_x(), part.half_width_y()},
                             {to_text(part.half_width_x(), 4), to_text(part.half_width_y(), 4)}});
    }
    bars.rows.push_back({"all of these together",
                         {budget.half_width_x(), budget.half_width_y()},
                         {to_text(budget.half_width_x(), 4), to_text(budget.half_width_y(), 4)}});
    return {"What makes it unsure",
            "How far each cause may put the white off in x and in y, 19 times in 20.",
            std::move(bars)};
}

std::optional<Chart> viewers_chart(const assess::WhiteAnswer& answer,
                                   const assess::PanelPart& part) {
    if (!part.viewer_group) {
        return {};
    }
    const std::vector<CandidateWhite>& whites = part.viewer_group->people.candidates;
    Bars bars{{part.as_it_stands ? "left as it is" : "at the reference's x, y",
               "with the " + white_called(part)},
              {}};
    for (std::size_t i = 0; i < answer.viewers.size(); ++i) {
        const double before = whites.front().expected[i].de00;
        const double after = whites.back().expected[i].de00;
        bars.rows.push_back({"viewer " + answer.viewers[i].name,
                             {before, after},
                             {"DE " + to_text(before, 1), "DE " + to_text(after, 1)}});
    }
    return Chart{
        "What each viewer is expected to see",
        "Difference between display and reference that is expected for each viewer, DE00, before and "
        "after.",
        std::move(bars)};
}

}  // namespace samelight::report
