#pragma once
// What the tests of this room share: lights, panels, populations, and the plain route from a person to a colour difference.
#include <cmath>
#include <cstddef>
#include <vector>

#include <Eigen/Core>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/differences/difference.hpp"
#include "samelight/colour/spaces/lab.hpp"
#include "samelight/colour/temperature.hpp"
#include "samelight/display/match.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/patch_set.hpp"
#include "samelight/display/reproduction.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/metamerism/comparison.hpp"
#include "samelight/metamerism/set_panel.hpp"
#include "samelight/meter/correction/fit_quality.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/spectrum/illuminants.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::test {

inline const SampledLight& d65() {
    static const SampledLight light = rebin(d_illuminant(6500), {});
    return light;
}

inline const Eigen::MatrixXd& patches() {
    static const Eigen::MatrixXd lights = patch_lights(patch_set(), d65());
    return lights;
}

inline Panel generic(const char* name) { return generic_panel(generic_model(name)); }

inline std::vector<MatrixPanel> list(const std::vector<const char*>& names) {
    std::vector<MatrixPanel> panels;
    for (const char* name : names) {
        panels.push_back({generic(name), PanelOrigin::generic});
    }
    return panels;
}

/// For whom displays are set where that isn't the instrument.
inline const Observer& eye() { return standard_observer<Cie2015_2deg>(); }

inline Population people(std::size_t count, std::uint64_t seed = 1) {
    PopulationParameters parameters;
    parameters.count = count;
    parameters.seed = seed;
    return Population(parameters);
}

inline SampledLight light_of(const Eigen::VectorXd& values, const Sampling& sampling = {}) {
    return {sampling, {values.begin(), values.end()}, 0.0};
}

/// A panel's white, set by instrument to look like D65 to CIE 1931, and to be as bright.
inline SampledLight white_of(const char* name) {
    return light_of(
        reproduce(generic(name), {d65(), patches().leftCols(1)}, standard_observer<Cie1931_2deg>())
            .lights.lights()
            .col(0));
}

/// How one person sees two lights: the plain route, with that person's own colour-matching functions as an Observer.
struct PlainView {
    double de00, chromatic, u, v;  ///< u, v: second minus first
    double dL, da, db;
};

inline PlainView plain_view(const Individual& person, const SampledLight& first,
                            const SampledLight& second, const SampledLight& white) {
    const Sensitivities t = colour_matching_observer(person).on(white.sampling);
    const auto w = tristimulus(t, white);
    const auto a = tristimulus(t, first);
    const auto b = tristimulus(t, second);
    const Lab<Any> p = lab(a, w);
    const Lab<Any> q = lab(b, w);
    const auto uv = uv1976(chromaticity(b)) - uv1976(chromaticity(a));
    // Without lightness: both as light as 50, which changes neither chroma nor hue nor their weights.
    const double chromatic =
        delta_e_2000(Lab<Any>(50.0, p.a(), p.b(), w), Lab<Any>(50.0, q.a(), q.b(), w));
    return {delta_e_2000(p, q), chromatic,     uv.first(),   uv.second(),
            q.L() - p.L(),      q.a() - p.a(), q.b() - p.b()};
}

}  // namespace samelight::test
