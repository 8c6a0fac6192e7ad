#pragma once
// The answer of `samelight white`: worked out by one function, said by two.
#include <optional>
#include <string>
#include <vector>

#include "samelight/observer/observer.hpp"
#include "samelight/white/target.hpp"
#include "samelight/white/type_range.hpp"

namespace samelight::report {

/// What is asked.
struct WhiteRequest {
    std::vector<std::string> panels;  ///< names or files, each perhaps with @x,y (io::open_panel)
    std::string reference = "D65";    ///< name or file (io::open_reference)
    std::vector<std::string> observers;   ///< ids; empty: CIE 2015 2 degrees and 10 degrees
    std::string now;                      ///< file of the white as it stands; empty: none
    double instrument_noise_xy = 0.0005;  ///< standard deviation of a reading's x and y, above 0
    Sampling sampling;
};

/// One panel's part of the answer.
struct PanelPart {
    PanelTargets targets;
    std::string title;  ///< in trade words, for a generic model
    bool generic = false;
    bool as_it_stands = false;                     ///< whether a white of the moment was the base
    std::vector<std::optional<TypeRange>> ranges;  ///< one a target; for generic models only
    std::string rests_on;                          ///< one sentence
    std::vector<std::string> understood;           ///< how its files were read
};

/// The whole answer.
struct WhiteAnswer {
    Reference reference;
    std::vector<std::string> reference_understood;
    std::vector<std::string> tables;  ///< the editions of the observers' tables
    double instrument_noise_xy;
    std::vector<PanelPart> panels;
};

/// Works the answer out. Throws Error for anything that can't be: bad files, unknown names, `now` with more than one panel.
WhiteAnswer answer_white(const WhiteRequest& request);

/// The answer for people: a table to be read at arm's length, then what it rests on. UTF-8, lines of at most 100 characters.
std::string white_page(const WhiteAnswer& answer);

/// The answer for programs: one JSON object, "schema": "samelight/white/1".
std::string white_json(const WhiteAnswer& answer);

}  // namespace samelight::report
