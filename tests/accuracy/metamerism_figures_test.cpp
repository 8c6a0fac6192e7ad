// The largest errors of figures of what people see between displays, from spectra on. References: CIE 170-1's construction, the sums and the
// formulas as written, in long double.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <vector>

#include <gtest/gtest.h>

#include <Eigen/Core>

#include "accuracy/as_printed/differences.hpp"
#include "accuracy/as_printed/lab.hpp"
#include "accuracy/as_printed/people.hpp"
#include "accuracy/ledger.hpp"
#include "metamerism/metamerism_fixtures.hpp"
#include "samelight/display/mixed_lights.hpp"
#include "samelight/display/reproduction.hpp"
#include "samelight/metamerism/comparison.hpp"
#include "samelight/metamerism/panel_matrix.hpp"
#include "samelight/metamerism/population_index.hpp"
#include "samelight/metamerism/set_panel.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/spectrum/rebinning.hpp"

namespace samelight {
namespace {

using test::Exact;
using test::Exact3;
using test::ExactLab;
using test::Figure;
using test::lab_of;
using test::midway;

const char* const as_written = "CIE 170-1:2006, clause 6, CIE 15:2018 and CIEDE2000, as written";
constexpr std::size_t viewers = 8;

/// Displays of unlike types that show a white and a few colours as they are set.
struct Shown {
    std::vector<MatrixPanel> panels = test::list(
        {"crt", "lcd-white-led", "lcd-quantum-dot", "oled-rgb", "oled-white", "laser-rgb"});
    PanelMatrixOptions options;
    Eigen::MatrixXd colours = test::patches()(Eigen::all, Eigen::seqN(0, 8, 17));
    std::vector<std::vector<Reproduction>> settings =
        set_panels(panels, options.settings, {test::d65(), colours}, test::eye());
};
const Shown& shown() {
    static const Shown all;
    return all;
}

/// A mean that is put together value by value.
struct Mean {
    Exact sum = 0.0L;
    std::size_t count = 0;
    void add(Exact value) {
        sum += value;
        ++count;
    }
    [[nodiscard]] Exact value() const { return sum / static_cast<Exact>(count); }
};

/// What the people of a population see of sides' colours, the first of which are their whites.
class SeenByPeople {
  public:
    SeenByPeople(const std::vector<test::PersonAsWritten>& people,
                 const std::vector<MixedLights>& sides)
        : people_(people.size()) {
        for (const MixedLights& side : sides) {
            for (const test::PersonAsWritten& person : people) {
                seen_.push_back(person.sees(side));
            }
        }
    }
    /// CIEDE2000 of each colour between two sides to one of the people, who is adapted to the mean of their whites.
    [[nodiscard]] std::vector<Exact> differences(std::size_t person, const MatrixPair& pair) const {
        const std::vector<Exact3>& first = seen_[pair.first * people_ + person];
        const std::vector<Exact3>& second = seen_[pair.second * people_ + person];
        const Exact3 white = midway(first[0], second[0]);
        std::vector<Exact> result;
        for (std::size_t j = 0; j < first.size(); ++j) {
            result.push_back(
                test::ciede2000_as_printed(lab_of(first[j], white), lab_of(second[j], white)));
        }
        return result;
    }

  private:
    std::size_t people_;
    /// [side][person]
    std::vector<std::vector<Exact3>> seen_;
};

std::vector<test::PersonAsWritten> as_written_of(const Population& people) {
    std::vector<test::PersonAsWritten> result;
    for (std::size_t i = 0; i < people.size(); ++i) {
        result.emplace_back(people.individual(i));
    }
    return result;
}

TEST(MetamerismAccuracyOfDouble, PanelMatrix) {
    SAMELIGHT_NEEDS_EXACT()
    const char* const header = "metamerism/panel_matrix.hpp";
    const char* const range = "6 displays of unlike types in 3 settings, 8 colours, 8 people";
    const char* const unit = "the difference";
    Figure whites(
        {"panel_matrix()", "the whites to each viewer", header, range, "1e-9", unit, as_written},
        "double");
    Figure colours(
        {"panel_matrix()", "mean of the colours", header, range, "1e-9", unit, as_written},
        "double");
    Figure tenths(
        {"panel_matrix()", "mean of the colours", header, range, "3e-4", unit, as_written},
        "float");
    PanelMatrixOptions options = shown().options;
    options.least = false;
    std::size_t seen = 0;
    for (std::uint64_t seed = 1; seen < test::draws(); ++seed) {
        const Population people = test::people(viewers, seed);
        const std::vector<test::PersonAsWritten> exact = as_written_of(people);
        const auto compared = [&](MatrixPrecision precision) {
            options.precision = precision;
            return panel_matrix(shown().panels, shown().settings, {test::eye(), people}, options);
        };
        const PanelMatrix full = compared(MatrixPrecision::full);
        const PanelMatrix rough = compared(MatrixPrecision::tenths);
        std::vector<std::size_t> chosen = {0};
        for (const std::size_t colour : full.colours) {
            chosen.push_back(colour + 1);
        }
        for (std::size_t s = 0; s < full.settings.size(); ++s) {
            std::vector<MixedLights> sides;
            for (const Reproduction& panel : shown().settings[s]) {
                sides.push_back(panel.lights.chosen(chosen));
            }
            const SeenByPeople by_people(exact, sides);
            for (std::size_t at = 0; at < full.pairs.size(); ++at) {
                const PairFigures& figures = full.pairs[at].figures[s];
                Mean mean;
                for (std::size_t i = 0; i < viewers; ++i) {
                    const std::vector<Exact> want = by_people.differences(i, full.pairs[at]);
                    whites.see(figures.viewer_white_de00[i] - want[0]);
                    ++seen;
                    std::for_each(want.begin() + 1, want.end(), [&](Exact v) { mean.add(v); });
                }
                colours.see(figures.colours_de00.mean - mean.value(), mean.count);
                tenths.see(rough.pairs[at].figures[s].colours_de00.mean - mean.value(), mean.count);
            }
        }
    }
}

TEST(MetamerismAccuracyOfDouble, PopulationIndex) {
    SAMELIGHT_NEEDS_EXACT()
    const char* const header = "metamerism/population_index.hpp";
    const char* const range = "two displays of unlike types, a white and 8 colours, 8 people";
    Figure de00({"population_index()", "means of CIEDE2000", header, range, "1e-9",
                 "the difference", as_written},
                "double");
    Figure uv(
        {"population_index()", "means in u', v'", header, range, "1e-9", "u', v'", as_written},
        "double");
    Figure mcdm({"population_index()", "MCDM", header, range, "1e-9", "Delta E\\*ab", as_written},
                "double");
    const MixedLights& a = shown().settings[1][0].lights;
    const MixedLights& b = shown().settings[1][4].lights;
    const SampledLight adapted = mean_light(test::light_of(a.chosen({0}).lights().col(0)),
                                            test::light_of(b.chosen({0}).lights().col(0)));
    std::size_t seen = 0;
    for (std::uint64_t seed = 1; seen < test::draws(); ++seed) {
        const Population people = test::people(viewers, seed);
        const PopulationIndex index = population_index(people, {a, b, adapted});
        std::vector<Mean> mean_de00(a.size());
        std::vector<Mean> mean_uv(a.size());
        std::vector<std::vector<Exact3>> offsets(a.size());
        for (const test::PersonAsWritten& person : as_written_of(people)) {
            const std::vector<Exact3> first = person.sees(a);
            const std::vector<Exact3> second = person.sees(b);
            const Exact3 white = person.sees(adapted.values.data());
            for (std::size_t j = 0; j < a.size(); ++j) {
                const ExactLab p = lab_of(first[j], white);
                const ExactLab q = lab_of(second[j], white);
                mean_de00[j].add(test::ciede2000_as_printed(p, q));
                const auto from = test::uv_as_printed(first[j]);
                const auto to = test::uv_as_printed(second[j]);
                mean_uv[j].add(std::hypot(to[0] - from[0], to[1] - from[1]));
                offsets[j].push_back({q.L - p.L, q.a - p.a, q.b - p.b});
            }
        }
        for (std::size_t j = 0; j < a.size(); ++j) {
            de00.see(index.colours[j].mean_de00 - mean_de00[j].value(), viewers);
            uv.see(index.colours[j].mean_uv - mean_uv[j].value(), viewers);
            std::array<Mean, 3> centre;
            for (const Exact3& offset : offsets[j]) {
                for (std::size_t k = 0; k < 3; ++k) {
                    centre[k].add(offset[k]);
                }
            }
            Mean distance;
            for (const Exact3& offset : offsets[j]) {
                distance.add(std::hypot(offset[0] - centre[0].value(),
                                        offset[1] - centre[1].value(),
                                        offset[2] - centre[2].value()));
            }
            mcdm.see(index.colours[j].mcdm - distance.value(), viewers);
        }
        seen += viewers * a.size();
    }
}

}  // namespace
}  // namespace samelight
