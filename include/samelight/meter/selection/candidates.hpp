#pragma once
// Corrections at hand, and what they tell about the meter that they were made for.
#include <optional>
#include <span>
#include <string>
#include <vector>

#include <Eigen/Core>

#include "samelight/display/panel.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/selection/choice.hpp"
#include "samelight/meter/selection/likely_meter.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// A correction that is at hand, and the panel that it was made on, where its spectra were kept.
struct CandidateCorrection {
    std::string name;
    Correction correction;
    std::optional<Panel> panel = {};
    /// Why it is not to be called safe here, beside what its own verdict says.
    std::optional<NotSafe> not_safe = {};
    /// Why it is not to be used here at all.
    std::optional<NotAtAll> not_at_all = {};
    /// What a white read now by both instruments says of it: stands in place of what is expected.
    std::optional<ReadWhite> read = {};
    /// That white says to keep it.
    bool keep = false;
};

/// Whether two hold one and the same correction, whatever their names: same matrix, same observer, same display. It is no second evidence.
SAMELIGHT_API bool is_same_correction(const CandidateCorrection& a, const CandidateCorrection& b);

namespace detail {

using Lights4 = Eigen::Matrix<double, Eigen::Dynamic, 4>;

/// Red, green, blue and white.
SAMELIGHT_API Lights4 lights_of(const Panel& panel);

/// How well the inverse matrix gives back what the meter said of an emitter, relative (modelling choices): what readings leave; of a panel with four
/// emitters no matrix gives back all, but white, where it was kept exact.
double noise_of_shown(const Correction& correction, bool four_emitters, bool white);

void warn_about_same(std::span<const CandidateCorrection> corrections,
                     std::vector<Warning>& warnings);

/// A meter as the corrections show it.
struct ShownMeter {
    LikelyMeter meter;
    /// False where they show what no filter meter is (`no_such_meter`).
    bool believable = true;
};

/// The meter supposed, narrowed by the corrections. Where they show it worse than supposed, it is supposed worse.
SAMELIGHT_API ShownMeter likely_meter(const Sampling& sampling,
                                      std::span<const CandidateCorrection> corrections,
                                      MeterSupposition& supposed, std::vector<Warning>& warnings);

void warn_about_meters(std::span<const CandidateCorrection> corrections,
                       std::vector<Warning>& warnings);

}  // namespace detail

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/meter/selection/impl/candidates.ipp"
#endif
