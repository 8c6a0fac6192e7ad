#include "samelight/report/metamerism_answer.hpp"
#include "samelight/assess/error_words.hpp"
#include "samelight/assess/metamerism.hpp"
#include "samelight/display/patch_set.hpp"
#include "samelight/io/ages_csv.hpp"
#include "samelight/io/deviation_functions.hpp"
#include "samelight/io/displays.hpp"
#include "samelight/io/named_lights.hpp"
#include "samelight/metamerism/comparison.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/by_name.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/report/error_list.hpp"

#include <cstddef>
#include <exception>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "report/words/meter_panels.hpp"
#include "report/words/numbers_typed.hpp"
#include "report/words/viewers_typed.hpp"

namespace samelight::report {
namespace {

Population people_of(const MetamerismRequest& request, std::vector<Warning>& notes) {
    if (!(request.field_deg >= 1.0) || !(request.field_deg <= 10.0)) {
        throw Error(ErrorKind::input, "field", to_text(request.field_deg) + " degrees",
                    "a field of view of 1 to 10 degrees");
    }
    if (request.people < 20 || request.people > 100000) {
        throw Error(ErrorKind::input, "people", std::to_string(request.people),
                    "20 to 100000 people");
    }
    PopulationParameters parameters;
    io::NamedAges named = io::open_ages(request.ages);
    for (const std::string& sentence : named.understood) {
        notes.push_back(Warning{"ages_read", {{"understood", sentence}}});
    }
    parameters.ages = std::move(named.ages);
    parameters.field_deg = request.field_deg;
    parameters.count = static_cast<std::size_t>(request.people);
    return Population(parameters);
}

/// How the deviation functions were read; what is wrong with their file is said only once nothing before them is refused.
std::exception_ptr open_deviations(const std::string& name, assess::MetamerismRequest& asked,
                                   std::optional<std::string>& understood) {
    try {
        io::DeviationFunctions file = io::read_deviation_functions(name);
        understood = file.source + ":";
        for (const std::string& sentence : file.understood) {
            *understood += " " + sentence;
        }
        asked.deviations = std::move(file.rows);
    } catch (const Error&) {
        return std::current_exception();
    }
    return nullptr;
}

/// Moves the spectra of the displays that the comparison has into the answer; one that can't make the white was left out of it.
void keep_displays(std::vector<assess::ListedPanel>& asked, MetamerismAnswer& answer) {
    for (assess::ListedPanel& panel : asked) {
        const std::size_t next = answer.displays.size();
        if (next < answer.panels.size() && answer.panels[next].name == panel.name) {
            answer.displays.push_back(std::move(panel.panel));
        }
    }
}

}  // namespace

std::string colour_name(std::size_t colour) { return patch_set()[colour].name; }

MetamerismAnswer answer_metamerism(const MetamerismRequest& request) {
    std::vector<Warning> notes;
    Population population = people_of(request, notes);
    Observer observer = observer_named(request.observer);
    io::NamedReference reference = reference_typed(request.reference, request.sampling);
    assess::MetamerismRequest asked{
        std::move(reference.reference), {}, std::move(observer), std::move(population)};
    asked.viewers = eyes_typed(request.viewers);
    asked.every_index = request.every_index;
    asked.threads = request.threads;
    const bool one_more = !io::places_in_options(request.lights).empty();
    if (request.panels.size() + (one_more ? 1U : 0U) < 2) {
        assess::require_comparable(request.panels.size());
    }
    ListedPanels listed = listed_panels(request.panels, request.lights, request.sampling);
    require_enough(listed.panels.size(), 2, listed.errors);
    assess::require_comparable(listed.panels.size());
    asked.panels = std::move(listed.panels);
    std::optional<std::string> deviations;
    std::exception_ptr not_read;
    if (request.deviations) {
        not_read = open_deviations(*request.deviations, asked, deviations);
    }
    std::vector<std::string> subjects;
    for (const assess::ListedPanel& panel : asked.panels) {
        subjects.push_back(panel.name);
    }
    subjects.push_back("reference " + request.reference);
    MetamerismAnswer answer{
        assess::about(subjects, [&] { return assess::answer_metamerism(asked); }),
        std::move(reference.understood), std::move(deviations), std::move(listed.errors)};
    if (not_read) {
        std::rethrow_exception(not_read);
    }
    answer.viewer_notes.insert(answer.viewer_notes.begin(), notes.begin(), notes.end());
    keep_displays(asked.panels, answer);
    return answer;
}

}  // namespace samelight::report
