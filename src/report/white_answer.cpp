#include "samelight/report/white_answer.hpp"
#include "samelight/colour/adaptation.hpp"
#include "samelight/display/match.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/white_origin.hpp"
#include "samelight/io/named_lights.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/by_name.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/door.hpp"
#include "samelight/white/budget.hpp"
#include "samelight/white/doubt.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/room.hpp"
#include "samelight/white/target.hpp"
#include "samelight/white/type_range.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>
#include <utility>

#include "white_people.hpp"
#include "white_verdict.hpp"

namespace samelight::report {
namespace {

std::vector<Observer> observers_of(const WhiteRequest& request) {
    if (request.observers.empty()) {
        return {standard_observer<Cie2015_2deg>(), standard_observer<Cie2015_10deg>()};
    }
    std::vector<Observer> result;
    for (const std::string& id : request.observers) {
        result.push_back(observer_named(id));
    }
    return result;
}

/// Directions suffice to tune a base; whose they are is what the answer rests on.
std::string foundation(const io::NamedPanel& named, bool as_it_stands) {
    const std::string whose = named.model != nullptr ? "a generic model of this type, not this unit"
                                                     : "this unit's own spectra";
    if (as_it_stands) {
        return "the white as measured on the set; only the directions of red, green and blue come from " +
               whose + ".";
    }
    std::string black = " Black was not measured: it is inside the primaries.";
    if (named.panel.black_known()) {
        black = " Black was taken from every column and added once to the white.";
    }
    if (named.panel.black_known() && !named.panel.black_measurable()) {
        black = " Black is too dark to measure; what was read of it was taken from every column.";
    }
    return whose + "." +
           (named.model != nullptr ? " Measure red, green, blue and white for four places."
                                   : black);
}

/// What the panel's white starts from: as its name says, or as a file of the moment says, which is understood and doubted too.
WhiteBase base_of(const WhiteRequest& request, const std::string& text, const io::NamedPanel& named,
                  std::optional<io::NamedLight>& now) {
    WhiteBase base;
    base.set_to = named.set_to;
    if (!request.now.empty() && named.set_to) {
        throw Error(ErrorKind::input, text, "a white as set (@x,y) and one as it stands",
                    "one of the two: the panel without @x,y, or no file of the white now");
    }
    if (!request.now.empty()) {
        now = io::open_light(request.now, request.sampling);
        base.now = now->light;
        base.now_measured = true;
    } else if (named.set_to) {
        base.now = shown_light(named.panel, set_white(named.panel, *named.set_to));
    }
    return base;
}

/// Everything that one panel's answer is made from.
struct PanelInput {
    io::NamedPanel named;
    std::optional<io::NamedLight> now;
    WhiteBase base;
};

/// The mean over the viewers: how far each one's own white may lie from where it is taken to be.
std::array<double, 4> viewers_covariance(const Household& household) {
    std::array<double, 4> mean{};
    for (const PredictedTarget& target : household.targets) {
        for (std::size_t k = 0; k < 4; ++k) {
            mean[k] += target.covariance[k] / static_cast<double>(household.targets.size());
        }
    }
    return mean;
}

void judge_doubt(const WhiteRequest& request, const PanelInput& input, const WhiteAnswer& answer,
                 const Observer& observer, double reference_step_nm, PanelPart& part) {
    BudgetOptions options;
    options.instrument = answer.instrument;
    options.model = input.named.model;
    options.reference_measured = answer.reference_measured;
    options.additivity_floor_xy = request.additivity_floor_xy;
    options.others = {part.targets.targets.begin() + 1, part.targets.targets.end()};
    options.set_to = input.base.set_to;
    if (!options.set_to) {
        options.now = input.base.now;
    }
    options.now_measured = input.base.now_measured;
    if (part.population) {
        options.people = part.population->region;
    }
    if (part.household) {
        options.viewers_covariance = viewers_covariance(part.household->people);
        for (const Viewer& viewer : answer.viewers) {
            if (!viewer.matched) {
                options.viewers_unmatched.push_back(viewer.name);
            }
        }
    }
    part.step_nm = options.instrument.step_nm > 0.0
                       ? options.instrument.step_nm
                       : std::max({input.named.step_nm, input.now ? input.now->step_nm : 0.0,
                                   reference_step_nm});
    part.budget = target_budget(input.named.panel, answer.reference,
                                part.household ? eye_of_household(answer.viewers) : observer,
                                part.dialled(), options);
}

/// The same; where spectra are so far from making a white that the instrument's faults alone undo it, that is said instead.
void judge_doubt_if_any(const WhiteRequest& request, const PanelInput& input,
                        const WhiteAnswer& answer, const Observer& observer,
                        double reference_step_nm, PanelPart& part) {
    try {
        judge_doubt(request, input, answer, observer, reference_step_nm, part);
    } catch (const Error& error) {
        if (error.kind() != ErrorKind::domain) {
            throw;
        }
        part.budget.reset();
        part.targets.warnings.push_back(
            {"doubt_left_out",
             "How sure the target is can't be worked out: with an instrument's usual faults these spectra make no white. Do they "
             "belong to one display?"});
    }
}

PanelPart part_of(const WhiteRequest& request, const PanelInput& input, const WhiteAnswer& answer,
                  const std::vector<Observer>& observers, double reference_step_nm) {
    const io::NamedPanel& named = input.named;
    const Reference& reference = answer.reference;
    PanelPart part;
    part.generic = named.model != nullptr;
    part.title = part.generic ? std::string(named.model->title()) : "";
    part.understood = named.understood;
    TargetOptions options;
    options.instrument_noise_xy = request.instrument_noise_xy;
    options.now = input.base.now;
    std::vector<Warning> warnings = named.warnings;
    if (input.now) {
        part.understood.insert(part.understood.end(), input.now->understood.begin(),
                               input.now->understood.end());
        warnings.insert(warnings.end(), input.now->warnings.begin(), input.now->warnings.end());
    }
    std::optional<WhiteOriginJudgement> origin;
    if (input.now) {
        origin = judge_white_origin(named.panel, named.model, input.now->light);
        warn_of_origin(named, *origin, warnings);
        warn_of_no_white(*input.now, warnings);
    }
    part.as_it_stands = options.now.has_value();
    part.rests_on = foundation(named, input.base.now_measured);
    part.targets = white_targets(named.panel, reference, observers, options);
    part.targets.warnings.insert(part.targets.warnings.begin(), warnings.begin(), warnings.end());
    TypeOptions of_type{options, input.base.set_to};
    if (input.base.set_to) {
        of_type.target.now = std::nullopt;  // each unit's own
    }
    for (const Observer& observer : observers) {
        part.ranges.push_back(
            part.generic ? std::optional(type_range(*named.model, reference, observer, of_type))
                         : std::nullopt);
    }
    judge_people(request, named.panel, named.model, answer, input.base, part);
    if (part.dialled().in_gamut()) {
        judge_doubt_if_any(request, input, answer, observers.front(), reference_step_nm, part);
    }
    judge_verdict(request, named, answer, input.base, origin, part);
    return part;
}

/// The first people of a population; a room is judged for as many as this at most.
std::vector<Individual> first_people(const Population& population) {
    constexpr std::size_t most = 1024;
    std::vector<Individual> people;
    for (std::size_t i = 0; i < std::min(population.size(), most); ++i) {
        people.push_back(population.individual(i));
    }
    return people;
}

/// The ways to set all displays together, or why there are none.
void set_together(const std::vector<PanelInput>& inputs, const Observer& observer,
                  WhiteAnswer& answer) {
    std::vector<Panel> panels;
    std::vector<std::optional<SampledLight>> now;
    for (const PanelInput& input : inputs) {
        panels.push_back(input.named.panel);
        now.push_back(input.base.now);
    }
    std::vector<Individual> people;
    for (const Viewer& viewer : answer.viewers) {
        people.push_back(viewer.eye.likeliest);
    }
    if (people.empty()) {
        people = first_people(*answer.population);
    }
    try {
        for (std::size_t p = 0; p < panels.size(); ++p) {
            if (!answer.panels[p].targets.targets.front().in_gamut() ||
                (!now[p] && !set_white(panels[p], answer.reference.xy()).in_gamut())) {
                throw Error(ErrorKind::domain, panels[p].name(), "a white outside its gamut",
                            "displays that can all show theirs");
            }
        }
        answer.room = judge_room(panels, answer.reference, observer, people, {now, 1.0});
    } catch (const Error& error) {
        if (error.kind() != ErrorKind::domain) {
            throw;
        }
        answer.room_notes.push_back(
            {"room_left_out",
             std::string("Setting the displays together is left out: ") + error.what() + "."});
    }
}

}  // namespace

InstrumentLimits instrument_limits(const std::string& text, double reading_noise_xy) {
    InstrumentLimits limits;
    limits.reading_noise_xy = reading_noise_xy;
    const std::array<std::pair<std::string_view, double*>, 5> keys = {
        {{"shift", &limits.wavelength_shift_nm},
         {"bandwidth", &limits.bandwidth_nm},
         {"stray", &limits.stray_light},
         {"noise", &limits.noise},
         {"step", &limits.step_nm}}};
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find(',', at), text.size());
        const std::string_view entry = std::string_view(text).substr(at, end - at);
        const std::size_t equals = std::min(entry.find('='), entry.size());
        const auto key = std::find_if(keys.begin(), keys.end(), [&](const auto& k) {
            return k.first == entry.substr(0, equals);
        });
        const std::optional<double> value =
            samelight::detail::decimal_number(entry.substr(std::min(equals + 1, entry.size())));
        if (key == keys.end() || !value) {
            throw Error(ErrorKind::input, "instrument \"" + text + "\"",
                        "can't read \"" + std::string(entry) + "\"",
                        "shift, bandwidth, step (nm), stray, noise (of the peak), such as"
                        " bandwidth=5,shift=0.3");
        }
        *key->second = *value;
        at = end + 1;
    }
    samelight::detail::require_limits(limits);
    return limits;
}

WhiteAnswer answer_white(const WhiteRequest& request) {
    if (request.panels.empty()) {
        throw Error(ErrorKind::input, "white", "no panel", "at least one");
    }
    if (!request.now.empty() && request.panels.size() != 1) {
        throw Error(ErrorKind::input, "the white as it stands",
                    std::to_string(request.panels.size()) + " panels", "one panel, that set's own");
    }
    if (!(request.additivity_floor_xy >= 0.0) || !(request.additivity_floor_xy <= 0.1)) {
        throw Error(ErrorKind::input, "--floor", to_text(request.additivity_floor_xy),
                    "0 to 0.1, in x and y");
    }
    if (!(request.instrument_noise_xy > 0.0) || !(request.instrument_noise_xy < 0.1)) {
        throw Error(ErrorKind::input, "instrument noise", to_text(request.instrument_noise_xy),
                    "a standard deviation of x and y above 0 and below 0.1, such as 0.0005");
    }
    const std::vector<Observer> observers = observers_of(request);
    io::NamedReference reference = io::open_reference(request.reference, request.sampling);
    WhiteAnswer answer{std::move(reference.reference),
                       std::move(reference.understood),
                       reference.measured,
                       {},
                       request.instrument_noise_xy,
                       instrument_limits(request.instrument, request.instrument_noise_xy),
                       {},
                       {},
                       {},
                       {},
                       {},
                       {}};
    answer.population = population_of(request, answer.viewer_notes);
    name_viewers(request.viewers, answer.viewers, answer.viewer_notes);
    for (const Observer& observer : observers) {
        answer.tables.push_back(observer.id() + ": " + observer.edition());
    }
    std::vector<PanelInput> inputs;
    for (const std::string& text : request.panels) {
        PanelInput input{io::open_panel(text, request.sampling), {}, {}};
        input.base = base_of(request, text, input.named, input.now);
        inputs.push_back(std::move(input));
    }
    learn_from_eyes(request, inputs.front().named.panel, inputs.front().base, answer);
    for (const PanelInput& input : inputs) {
        answer.panels.push_back(part_of(request, input, answer, observers, reference.step_nm));
    }
    if (inputs.size() > 1) {
        set_together(inputs, observers.front(), answer);
    }
    return answer;
}

}  // namespace samelight::report
