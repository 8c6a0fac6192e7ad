#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include "c/base/arrays.hpp"
#include "c/base/guard.hpp"
#include "c/base/handles.hpp"
#include "samelight/assess/error_words.hpp"
#include "samelight/assess/metamerism.hpp"
#include "samelight/c/samelight.h"
#include "samelight/metamerism/comparison.hpp"
#include "samelight/report/metamerism_answer.hpp"

namespace {

/// The answer about displays of a list.
samelight::report::MetamerismAnswer comparison_of(
    const std::vector<const samelight::assess::WhitePanel*>& panels,
    const samelight_reference* reference, const samelight_metamerism_options* options) {
    const auto own =
        samelight::c::taken_or_defaults(options, samelight_metamerism_options_defaults, "options");
    const auto& light = samelight::c::given(reference, "reference").value;
    samelight::assess::MetamerismRequest asked{light.reference, {}};
    asked.reference.warnings.insert(asked.reference.warnings.end(), light.notes.warnings.begin(),
                                    light.notes.warnings.end());
    asked.threads = own.threads;
    if (own.observer != nullptr) {
        asked.observer = own.observer->value;
    }
    if (own.population != nullptr) {
        asked.population = own.population->value;
    }
    std::vector<std::string> subjects;
    for (const samelight::assess::WhitePanel* panel : panels) {
        asked.panels.push_back(samelight::c::listed(*panel));
        subjects.push_back(asked.panels.back().name);
    }
    subjects.push_back("reference " + light.reference.name);
    return {samelight::assess::about(subjects,
                                     [&] { return samelight::assess::answer_metamerism(asked); }),
            light.notes.understood,
            {},
            {}};
}

samelight_metamerism_figures figures_of(const samelight::report::MetamerismAnswer& answer) {
    samelight_metamerism_figures said;
    samelight_metamerism_figures_defaults(&said);
    const auto& settings = answer.matrix.pairs.front().figures;
    for (std::size_t i = 0; i < 3; ++i) {
        const samelight::PairFigures& figures = settings.at(i);
        said.white_mean[i] = figures.white_de00.mean;
        said.white_two_in_three[i] = figures.white_de00.two_in_three;
        said.white_p95[i] = figures.white_de00.p95;
        said.white_largest[i] = figures.white_de00.largest;
        said.colours_mean[i] = figures.colours_de00.mean;
        said.colours_two_in_three[i] = figures.colours_de00.two_in_three;
    }
    said.look_alike = answer.pairs.front().look_alike ? 1 : 0;
    return said;
}

}  // namespace

void samelight_metamerism_options_defaults(samelight_metamerism_options* options) {
    if (options != nullptr) {
        *options = {sizeof(samelight_metamerism_options), nullptr, nullptr, 1};
    }
}

void samelight_metamerism_figures_defaults(samelight_metamerism_figures* figures) {
    if (figures != nullptr) {
        *figures = {};
        figures->size = sizeof(samelight_metamerism_figures);
    }
}

samelight_status samelight_metamerism_of(const samelight_panel* first,
                                         const samelight_panel* second,
                                         const samelight_reference* reference,
                                         const samelight_metamerism_options* options,
                                         samelight_metamerism_figures* figures,
                                         samelight_error* error) {
    return samelight::c::guarded(error, [&] {
        auto* out = samelight::c::answer_place(figures, "figures");
        const auto answer = comparison_of({&samelight::c::given(first, "first").value,
                                           &samelight::c::given(second, "second").value},
                                          reference, options);
        samelight::c::hand_over(figures_of(answer), out);
    });
}

samelight_status samelight_metamerism_json(const samelight_panel* const* panels, size_t panel_count,
                                           const samelight_reference* reference,
                                           const samelight_metamerism_options* options,
                                           samelight_text** json, samelight_error* error) {
    return samelight::c::made(json, "json", error, [&] {
        samelight::assess::require_comparable(panel_count);
        return samelight::report::metamerism_json(
            comparison_of(samelight::c::panels_of(panels, panel_count), reference, options));
    });
}
