#pragma once
// The answer of `samelight white`: worked out by one function, said by two.
#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "samelight/observer/observer.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/white/doubt.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/target.hpp"

namespace samelight::report {

/// What is asked.
struct WhiteRequest {
    std::vector<std::string> panels;  ///< names or files, each perhaps with @x,y (io::open_panel)
    std::string reference = "D65";    ///< name or file (io::open_reference)
    std::vector<std::string> observers;   ///< ids; empty: CIE 2015 2 degrees and 10 degrees
    std::string now;                      ///< file of the white as it stands; empty: none
    double instrument_noise_xy = 0.0005;  ///< standard deviation of a reading's x and y, above 0
    std::vector<std::string>
        viewers;  ///< AGE[:FIELD], years and degrees; they are called A, B, C, ...
    std::vector<std::string> eyes;  ///< A=x,y: what viewer A set by eye on the first panel
    std::string ages = "20-70";     ///< of the population (io::open_ages)
    std::string spread =
        "matches";  ///< how its people spread at one age: "matches" (Asano 2016, Table 5), "literature" (unscaled)
    std::int64_t people = 1024;  ///< in the population, 1 to 100,000
    std::string
        instrument;  ///< what is known of it, "bandwidth=5,shift=0.3": see instrument_limits()
    double additivity_floor_xy = 0.0;  ///< see BudgetOptions
    Sampling sampling;
};

/// How people differ about one panel.
struct PopulationPart {
    std::string description;  ///< of the population
    TargetRegion region;
    double pair_threshold_uv;
    double pair_share;       ///< share of pairs of viewers whose targets lie further apart
    std::size_t outside;     ///< people whose target the panel can't show; they count all the same
    std::size_t impossible;  ///< people without a target; they don't
};

/// What named viewers make of one panel.
struct HouseholdPart {
    Household people;
    /// The white to dial in: the compromise, as a target "for viewers A and B", with what it takes.
    Target white;
    /// Half-widths within which each viewer's own white lies 19 times in 20: what is not known of the eye, and for a generic panel
    /// of the unit. In the viewers' order.
    std::vector<TypeRange> within;
    TypeRange white_within;  ///< the same for the white to dial in; 0 where the unit was measured
};

/// One panel's part of the answer.
struct PanelPart {
    /// The white that the answer tells to dial in: the household's, or else that for the first observer.
    [[nodiscard]] const Target& dialled() const {
        return household ? household->white : targets.targets.front();
    }

    PanelTargets targets;
    std::string title;  ///< in trade words, for a generic model
    bool generic = false;
    bool as_it_stands = false;                     ///< whether a white of the moment was the base
    std::vector<std::optional<TypeRange>> ranges;  ///< one a target; for generic models only
    std::optional<PopulationPart> population;
    std::optional<HouseholdPart> household;  ///< where viewers were named
    std::optional<Advice> advice;
    std::optional<TargetBudget>
        budget;  ///< of the household's white, or else of the first target; where the panel can show it
    double step_nm = 0.0;  ///< of the spectra, as the budget takes it; 0: that of the sampling
    std::string rests_on;  ///< one sentence
    std::vector<std::string> understood;  ///< how its files were read
};

/// The whole answer.
struct WhiteAnswer {
    Reference reference;
    std::vector<std::string> reference_understood;
    bool reference_measured = false;
    std::vector<std::string> tables;  ///< the editions of the observers' tables
    double instrument_noise_xy;
    InstrumentLimits instrument;
    std::optional<Population> population;
    std::vector<Viewer> viewers;
    std::vector<Warning> viewer_notes;  ///< an age that was moved into the formula's range, say
    std::vector<PanelPart> panels;
    std::vector<RoomSetting> room;    ///< ways to set several displays together; empty for one
    std::vector<Warning> room_notes;  ///< why `room` is empty for several
};

/// What is known of an instrument, from KEY=NUMBER,...: shift (nm), bandwidth (nm), stray (of the peak), noise (of the peak), step
/// (nm). What isn't said keeps its default. Throws Error (input).
InstrumentLimits instrument_limits(const std::string& text, double reading_noise_xy);

/// Works the answer out. Throws Error for anything that can't be: bad files, unknown names, `now` with more than one panel.
WhiteAnswer answer_white(const WhiteRequest& request);

/// The answer for people: a table to be read at arm's length, then what it rests on. UTF-8, lines of at most 100 characters.
/// @param with_budget  whether each part of the doubt gets a line
std::string white_page(const WhiteAnswer& answer, bool with_budget = false);

/// The answer for programs: one JSON object, "schema": "samelight/white/1".
std::string white_json(const WhiteAnswer& answer);

}  // namespace samelight::report
