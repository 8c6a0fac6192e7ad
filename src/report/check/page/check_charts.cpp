#include <algorithm>
#include <cstddef>
#include <string>
#include <utility>

#include "report/check/page/check_parts.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::report {
namespace {

void add_uv(const std::array<double, 3>& xyz, Series& series) {
    const double sum = xyz[0] + 15.0 * xyz[1] + 3.0 * xyz[2];
    if (sum > 0.0 && xyz[1] > 0.0) {
        series.points.push_back({4.0 * xyz[0] / sum, 9.0 * xyz[1] / sum});
    }
}

}  // namespace

Chart group_chart(const CheckAnswer& answer) {
    // Beside readings from before, by the patches that both have, as the table: others would be a change that nobody made.
    const bool compared = answer.before && answer.shared->in_both > 0;
    Bars bars;
    bars.names = compared ? std::vector<std::string>{"largest before", "largest now"}
                          : std::vector<std::string>{"mean", "largest"};
    for (const GroupSummary& now : compared ? answer.shared->now : answer.now.chosen.groups) {
        double first = now.de00.mean;
        if (compared) {
            const auto then = std::find_if(
                answer.shared->before.begin(), answer.shared->before.end(),
                [&now](const GroupSummary& group) { return group.group == now.group; });
            if (then == answer.shared->before.end()) {
                continue;
            }
            first = then->de00.largest;
        }
        bars.rows.push_back({now.group,
                             {first, now.de00.largest},
                             {to_text(first, 2), to_text(now.de00.largest, 2)}});
    }
    return {"DE00 by group", "Bars of each group's DE00; the same figures stand in the table.",
            std::move(bars)};
}

Chart gamma_chart(const CheckAnswer& answer) {
    Series measured{"measured", {}, Ink::accent, Stroke::solid, Mark::dot};
    Series meant{"meant", {}, Ink::faint, Stroke::dashed, Mark::none};
    double low = 10.0;
    double high = 0.0;
    for (const ProvenGrey& level : answer.now.greys.levels) {
        if (level.gamma && level.intended_gamma) {
            measured.points.push_back({100.0 * level.signal, *level.gamma});
            meant.points.push_back({100.0 * level.signal, *level.intended_gamma});
            low = std::min({low, *level.gamma, *level.intended_gamma});
            high = std::max({high, *level.gamma, *level.intended_gamma});
        }
    }
    Plot plot{"signal, %", "exponent to white", {0.0, 100.0}, {low - 0.1, high + 0.1}};
    plot.series = {std::move(meant), std::move(measured)};
    return {"Gamma over the signal",
            "Exponent of each grey to white, measured and meant; the figures stand in the table.",
            std::move(plot)};
}

Chart gamut_chart(const CheckAnswer& answer) {
    Series meant{"target", {}, Ink::faint, Stroke::solid, Mark::ring, Series::Shape::points};
    Series measured{"reading", {}, Ink::accent, Stroke::solid, Mark::dot, Series::Shape::points};
    for (std::size_t i = 0; i < answer.now.readings.points.size(); ++i) {
        const ProofPoint& point = answer.now.readings.points[i];
        if (answer.now.chosen.gaps[i].uv) {
            add_uv(point.target.value_or(answer.now.chosen.intended.xyz(point.shown.signal)),
                   meant);
            add_uv(point.xyz, measured);
        }
    }
    Plot plot{"u'", "v'", {0.0, 0.65}, {0.0, 0.65}, true};
    plot.series = {std::move(meant), std::move(measured)};
    return {"Targets and readings in u'v'", "Each target as a ring, each reading as a dot.",
            std::move(plot)};
}

}  // namespace samelight::report
