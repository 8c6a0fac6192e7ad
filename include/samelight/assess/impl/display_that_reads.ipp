#pragma once
// The bodies of assess/display_that_reads.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "samelight/assess/display_that_reads.hpp"
#include "samelight/assess/error_words.hpp"
#include "samelight/assess/white_request.hpp"
#include "samelight/assess/white_verdict.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/signals/rgb.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/bent_unit.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/display/types/primary_readings.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/parallel.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/white/units_that_read.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// How far the nearest unit's worst primary is off, in x, y, and which that is.
struct WorstPrimary {
    const char* name;
    double distance;
};

inline WorstPrimary worst_primary(const BentUnit& unit) {
    constexpr std::array<const char*, 3> names = {"red", "green", "blue"};
    WorstPrimary worst{names[0], 0.0};
    for (std::size_t k = 0; k < 3; ++k) {
        if (const double off = unit.left_over.at(k).distance(); off > worst.distance) {
            worst = {names.at(k), off};
        }
    }
    return worst;
}

/// Whether the nearest unit is as far off as none that leaves its type's ranges by a few nm is: .01 (modelling choice; the green peak of narrow
/// bands moves so far by 2 nm).
inline bool far_from_type(const BentUnit& unit) { return worst_primary(unit).distance > 0.01; }

/// That no unit of the type reads so, and where it shows most.
inline Warning readings_unlike_type(const BentUnit& unit) {
    const WorstPrimary worst = worst_primary(unit);
    const std::string type(unit.model->name());
    if (far_from_type(unit)) {
        return Warning{"readings_of_another_type",
                       {{"type", type}, {"primary", worst.name}, {"distance_xy", worst.distance}}};
    }
    return Warning{"readings_unlike_type",
                   {{"type", type}, {"primary", worst.name}, {"distance_xy", worst.distance}}};
}

/// How far the worst of three primaries is from an encoding's, in x, y.
inline double distance_from(const RgbPrimaries& standard, const PrimaryReadings& readings) {
    const std::array<std::array<double, 2>, 3> xy = {standard.red, standard.green, standard.blue};
    double worst = 0.0;
    for (std::size_t k = 0; k < 3; ++k) {
        const Chromaticity<Cie1931_2deg> at(xy.at(k)[0], xy.at(k)[1]);
        worst = std::max(worst, (readings.primaries.at(k).xy - at).distance());
    }
    return worst;
}

SAMELIGHT_INLINE std::optional<Warning> primaries_of_standard(const PrimaryReadings& readings) {
    // As near as a picture mode that was calibrated comes (modelling choice).
    constexpr double as_near_as_a_mode = 0.006;
    double nearest = as_near_as_a_mode;
    std::string_view which;
    const auto look_at = [&](const RgbPrimaries& standard, std::string_view name) {
        if (const double off = distance_from(standard, readings); off < nearest) {
            nearest = off;
            which = name;
        }
    };
    look_at(Bt709::primaries, "ITU-R BT.709");
    look_at(Bt2020::primaries, "ITU-R BT.2020");
    look_at(P3D65::primaries, "P3 (SMPTE EG 432-1)");
    look_at(SmpteC::primaries, "SMPTE C (SMPTE RP 145)");
    look_at(Ebu3213::primaries, "EBU Tech. 3213");
    look_at(Ntsc1953::primaries, "NTSC 1953");
    if (which.empty()) {
        return {};
    }
    return Warning{"primaries_of_standard",
                   {{"standard", std::string(which)}, {"distance_xy", nearest}}};
}

/// On which sampling units are drawn, and by how many threads.
struct HowDrawn {
    const Sampling& sampling;
    std::size_t threads;
};

/// A display of the type; `readings` are believed as far as one of its units can read so. Throws Error (domain), `name` first, where its
/// units can't make the white.
inline assess::WhitePanel display_of_type(const std::string& name, const GenericModel& model,
                                          const PrimaryReadings& readings, const HowDrawn& how) {
    const PrimaryReadings believed = believable(model, readings);
    const BentUnit unit = bend_to(model, believed);
    const Sampling& sampling = how.sampling;
    assess::WhitePanel display{
        Panel(name,
              assess::about({name}, [&] { return spectra_that_read(unit, believed, sampling); }),
              sampling)
            .made_from(model),
        &model,
        {},
        {}};
    display.units = std::make_shared<const UnitsThatRead>(unit, believed, sampling,
                                                          UnitsDrawn{512, how.threads});
    if (2 * display.units->without_white() > display.units->size()) {
        throw Error(
            ErrorKind::domain, name,
            "a white that most units of the type " + std::string(model.name()) + " can't make",
            "red, green, blue and white as read at full drive, or another type");
    }
    if (believed.noise_xy > readings.noise_xy) {
        display.readings.another_type = far_from_type(unit);
        display.notes.warnings.push_back(readings_unlike_type(unit));
    }
    display.readings.no_white = is_no_white(readings.white.xy);
    if (display.readings.no_white) {
        display.notes.warnings.push_back(
            Warning{"read_white_is_no_white",
                    {{"x", readings.white.xy.x()}, {"y", readings.white.xy.y()}}});
    }
    return display;
}

/// Whether white is so much brighter than red, green and blue together that something else makes light, too.
inline bool needs_white_emitter(const PrimaryReadings& readings) {
    if (!readings.luminances_known()) {
        return false;
    }
    double sum = 0.0;
    for (const LightReading& primary : readings.primaries) {
        sum += *primary.luminance;
    }
    return sum < 0.9 * *readings.white.luminance;
}

/// The nearest units of all types that can make such a white, likeliest first.
inline std::vector<BentUnit> units_of_all_types(const PrimaryReadings& readings,
                                                std::size_t threads) {
    const bool emitter = needs_white_emitter(readings);
    std::vector<const GenericModel*> models;
    for (const GenericModel& model : generic_models()) {
        if (!emitter || model.emission(Sampling{}).white) {
            models.push_back(&model);
        }
    }
    std::vector<std::optional<BentUnit>> bent(models.size());
    parallel::work_in_blocks(models.size(), threads, [&](std::size_t i, std::size_t) {
        bent[i] = bend_to(*models[i], readings);
    });
    std::vector<BentUnit> units;
    for (std::optional<BentUnit>& unit : bent) {
        units.push_back(*std::move(unit));
    }
    std::sort(units.begin(), units.end(), [](const BentUnit& a, const BentUnit& b) {
        return a.log_likelihood > b.log_likelihood;
    });
    return units;
}

/// The noise with which the nearest of all types reads so.
inline double noise_of_nearest(const std::vector<BentUnit>& units, const PrimaryReadings& readings,
                               std::size_t threads) {
    std::vector<double> noises(units.size());
    parallel::work_in_blocks(units.size(), threads, [&](std::size_t i, std::size_t) {
        noises[i] = believable(*units[i].model, readings).noise_xy;
    });
    double noise = 0.1;
    for (const double of_unit : noises) {
        noise = std::min(noise, of_unit);
    }
    return noise;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM::assess {

SAMELIGHT_INLINE WhitePanel display_that_reads(const std::string& name,
                                               const PrimaryReadings& readings,
                                               const GenericModel& model,
                                               const Sampling& sampling) {
    require_readings(readings, name);
    WhitePanel display = samelight::detail::display_of_type(name, model, readings, {sampling, 1});
    if (auto warning = samelight::detail::primaries_of_standard(readings)) {
        display.notes.warnings.push_back(std::move(*warning));
    }
    return display;
}

SAMELIGHT_INLINE std::vector<WhitePanel> displays_that_read(const std::string& name,
                                                            const PrimaryReadings& readings,
                                                            const Sampling& sampling,
                                                            std::size_t threads) {
    constexpr double least_probability = 0.01;
    require_readings(readings, name);
    std::vector<BentUnit> units = samelight::detail::units_of_all_types(readings, threads);
    PrimaryReadings believed = readings;
    believed.noise_xy = samelight::detail::noise_of_nearest(units, readings, threads);
    if (believed.noise_xy > readings.noise_xy) {
        units = samelight::detail::units_of_all_types(believed, threads);
    }
    std::erase_if(units, [](const BentUnit& unit) {
        return unit.misfit > no_such_unit || samelight::detail::far_from_type(unit);
    });
    if (units.empty()) {
        throw Error(ErrorKind::domain, name, "readings that no unit of any known type gives",
                    "red, green, blue and white as read at full drive, or the type that it is");
    }
    double possible = 0.0;
    const auto likelihood = [&](const BentUnit& unit) {
        return std::exp(unit.log_likelihood - units.front().log_likelihood);
    };
    for (const BentUnit& unit : units) {
        possible += likelihood(unit);
    }
    std::vector<WhitePanel> displays;
    for (const BentUnit& unit : units) {
        if (likelihood(unit) < least_probability * possible) {
            break;  // so are all that follow
        }
        try {
            displays.push_back(
                samelight::detail::display_of_type(name + " as " + std::string(unit.model->name()),
                                                   *unit.model, readings, {sampling, threads}));
            displays.back().probability = likelihood(unit);
        } catch (const Error& error) {
            if (error.kind() != ErrorKind::domain) {
                throw;
            }
            possible -= likelihood(unit);  // not one of those that can make such a white
        }
    }
    if (displays.empty()) {
        throw Error(ErrorKind::domain, name,
                    "a white that no type can make whose red, green and blue read so",
                    "red, green, blue and white as read at full drive, or the type that it is");
    }
    for (WhitePanel& display : displays) {
        display.probability /= possible;
    }
    return displays;
}

}  // namespace samelight::assess
