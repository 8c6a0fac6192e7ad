// Any displays, references, people and options through the C interface's questions about whites and about people: refused in one line, or an answer
// without NaN where none is promised, twice the same.
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <vector>

#include "doors/c_handles.hpp"

namespace {

using fuzz::Drawn;

struct Asked {
    fuzz::Panel first, second;
    fuzz::Reference reference;
    fuzz::Population population;
    fuzz::Observer observer;
    samelight_viewer viewers[2] = {};
    samelight_white_options options{};
    const samelight_observer* observers[1] = {};
};

Asked asked(Drawn& drawn) {
    Asked a{fuzz::drawn_panel(drawn), fuzz::drawn_panel(drawn), fuzz::drawn_reference(drawn),
            fuzz::drawn_population(drawn), fuzz::drawn_observer(drawn)};
    samelight_white_options_defaults(&a.options);
    a.options.population = a.population.get();
    for (samelight_viewer& viewer : a.viewers) {
        viewer = {drawn.number(15.0, 90.0), drawn.number(0.9, 10.1)};
    }
    a.options.viewer_count = drawn.count(2);
    a.options.reading_noise_xy = drawn.number(0.0, 0.01);
    a.options.wavelength_shift_nm = drawn.number(0.0, 3.0);
    a.options.bandwidth_nm = drawn.number(0.0, 20.0);
    a.options.stray_light = drawn.number(0.0, 0.01);
    a.options.noise = drawn.number(0.0, 0.01);
    a.options.step_nm = drawn.number(0.0, 10.0);
    a.options.additivity_floor_xy = drawn.number(0.0, 0.1);
    return a;
}

void demand_part(const samelight_white_answer* answer) {
    samelight_white_part part{};
    samelight_white_part_defaults(&part);
    samelight_error error{};
    if (!fuzz::answered(samelight_white_answer_part(answer, 0, &part, &error), error, "part"))
        return;
    fuzz::demand_finite(std::array{part.x, part.y, part.delta_x, part.delta_y, part.coverage},
                        "part");
    fuzz::demand(!(part.half_width_x < 0.0) && !(part.half_width_y < 0.0),
                 "half widths of 0 or more");
    fuzz::demand(!(part.luminance_ratio < 0.0) && !std::isinf(part.luminance_ratio),
                 "a share of luminance");
    for (std::size_t i = 0; i < part.drive_count; ++i) {
        fuzz::demand(std::isfinite(part.drive[i]), "finite drives");
    }
}

void ask_white(const Asked& a) {
    const samelight_panel* panels[2] = {a.first.get(), a.second.get()};
    samelight_error error{};
    samelight_white_answer* made = nullptr;
    const std::size_t count = a.second ? 2 : 1;
    if (fuzz::answered(samelight_white(a.reference.get(), panels, count, &a.options, &made, &error),
                       error, "white")) {
        demand_part(made);
        fuzz::same_json_twice(
            [&](samelight_text** text, samelight_error* e) {
                return samelight_white_answer_json(made, text, e);
            },
            "white");
    }
    samelight_white_answer_destroy(made);
}

void ask_people(const Asked& a) {
    samelight_error error{};
    samelight_population_spread spread{};
    samelight_population_spread_defaults(&spread);
    if (fuzz::answered(samelight_population_spread_of(a.population.get(), a.first.get(),
                                                      a.reference.get(), &spread, &error),
                       error, "spread")) {
        fuzz::demand_finite(spread.mean_xy, "spread");
        fuzz::demand_finite(spread.median_xy, "spread");
        fuzz::demand_finite(spread.covariance_xy, "spread");
        fuzz::demand_finite(
            std::array{spread.semi_major_xy, spread.semi_minor_xy, spread.angle_deg}, "spread");
    }
}

void ask_metamerism(const Asked& a) {
    samelight_metamerism_options options{};
    samelight_metamerism_options_defaults(&options);
    options.observer = a.observer.get();
    options.population = a.population.get();
    samelight_metamerism_figures figures{};
    samelight_metamerism_figures_defaults(&figures);
    samelight_error error{};
    if (fuzz::answered(samelight_metamerism_of(a.first.get(), a.second.get(), a.reference.get(),
                                               &options, &figures, &error),
                       error, "metamerism")) {
        fuzz::demand_finite(figures.white_mean, "metamerism");
        fuzz::demand_finite(figures.white_p95, "metamerism");
        fuzz::demand_finite(figures.white_largest, "metamerism");
        fuzz::demand_finite(figures.colours_mean, "metamerism");
        fuzz::demand_finite(figures.colours_two_in_three, "metamerism");
    }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    Drawn drawn(data, size);
    const std::size_t question = drawn.count(2);
    Asked a = asked(drawn);
    if (!a.first || !a.reference || !a.population) return 0;
    a.options.viewers = a.viewers;
    a.observers[0] = a.observer.get();
    if (a.observer && drawn.one_in(2)) {
        a.options.observers = a.observers;
        a.options.observer_count = 1;
    }
    if (question == 0) ask_people(a);
    if (question == 1) ask_white(a);
    if (question == 2 && a.second) ask_metamerism(a);
    return 0;
}
