#pragma once
// Which stored correction suits a panel, or none: the verdict as a value.
#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "samelight/numeric/error.hpp"

namespace samelight {

/// The error to be expected of a corrected reading: root mean squares over all that isn't known of the meter.
struct ExpectedError {
    double white_xy = 0.0;  ///< distance in x, y
    double white_uv = 0.0;  ///< distance in u', v'
    double white_de00 =
        0.0;  ///< CIEDE2000 at equal luminance, the true white being the white of CIELAB
    double primaries_xy = 0.0;  ///< the worst of red, green and blue, distance in x, y
};

/// What a correction promises on a panel.
struct CorrectionProspect {
    std::optional<ExpectedError>
        error;  ///< absent where it can't be judged: `why_not` says so in words
    std::string why_not = {};
    std::optional<double> panel_distance_nm =
        {};  ///< panel_distance_nm() to the panel that it was made on
    bool worse_than_none = false;
};

/// The verdict on a panel.
enum class Choice {
    safe,          ///< the best stored correction is good enough
    use_none,      ///< no stored correction is expected to do better than none, or not by enough
    measure_panel  ///< the best one does better than none, but not well enough
};

/// "safe", "use none", "measure this panel".
inline const char* name_of(Choice choice) {
    constexpr std::array<const char*, 3> names = {"safe", "use none", "measure this panel"};
    return names.at(static_cast<std::size_t>(choice));
}

/// What is to be done on one panel.
struct PanelChoice {
    std::string panel;
    ExpectedError none;                    ///< read without any correction
    std::vector<CorrectionProspect> with;  ///< one a correction, in their order
    std::optional<std::size_t> best =
        {};  ///< the correction of the least error; absent where none is better
    Choice verdict = Choice::use_none;
    bool good_enough = false;  ///< whether what the verdict names to be used stays within the limit

    /// The error to be expected with what is to be used.
    [[nodiscard]] const ExpectedError& chosen() const { return best ? *with[*best].error : none; }
};

/// The whole answer.
struct Choices {
    std::vector<PanelChoice> panels;
    double supposed_mismatch =
        0.0;  ///< as used, after what the corrections themselves show; 0 where the meter's rows are known
    std::vector<Warning> warnings;
};

}  // namespace samelight
