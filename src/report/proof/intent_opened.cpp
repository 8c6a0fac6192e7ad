#include <algorithm>
#include <array>
#include <cmath>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <system_error>
#include <utility>

#include "report/words/numbers_typed.hpp"
#include "samelight/check/intent/display_encoding.hpp"
#include "samelight/io/dialled_white.hpp"
#include "samelight/io/named_lights.hpp"
#include "samelight/io/text_for_people.hpp"
#include "samelight/meter/readings/light_columns.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/report/check/proof_typed.hpp"

namespace samelight::report {
namespace {

using Xy = Chromaticity<Cie1931_2deg>;

/// FILE or FILE#DISPLAY; a # may stand in a file's name.
Xy white_in_answer(const std::string& typed) {
    const auto is_there = [](const std::string& file) {
        std::error_code failed;
        return std::filesystem::exists(file, failed);
    };
    const std::size_t hash = typed.rfind('#');
    if (is_there(typed)) {
        return io::read_dialled_white(typed);
    }
    if (hash == std::string::npos || !is_there(typed.substr(0, hash))) {
        throw Error(ErrorKind::input, "--white",
                    "\"" + io::harmless(typed) + "\", neither two numbers nor a file",
                    "x,y, or the JSON of `samelight white` (FILE, or FILE#DISPLAY)");
    }
    return io::read_dialled_white(typed.substr(0, hash), typed.substr(hash + 1));
}

template <class... E>
std::optional<RgbEncoding> published_encoding(const std::string& id) {
    std::optional<RgbEncoding> found;
    static_cast<void>(((id == E::id && (found = RgbEncoding::of<E>(), true)) || ...));
    return found;
}

RgbEncoding encoding_typed(const std::string& typed, std::vector<std::string>& understood) {
    if (const auto found =
            published_encoding<Bt709, P3D65, P3Cinema, Bt2020, SmpteC, Ebu3213, Ntsc1953>(typed)) {
        return *found;
    }
    if (typed.find_first_of("./") != std::string::npos) {
        understood.push_back("Primaries of " + typed + ", about the white of D65.");
        const io::NamedPanel opened = io::open_panel(typed, Sampling{});
        try {
            return encoding_of_panel(typed, opened.panel);
        } catch (const Error& error) {
            throw Error(ErrorKind::input, "--encoding " + io::harmless(typed), error.found(),
                        "a display whose primaries hold the white of D65");
        }
    }
    throw Error(
        ErrorKind::input, "--encoding", "\"" + io::harmless(typed) + "\"",
        "bt709, p3-d65, p3-cinema, bt2020, smpte-c, ebu-3213, ntsc-1953 or a display's file");
}

double number_behind(const std::string& typed, std::size_t colon) {
    const double number =
        samelight::detail::number_or_nan(std::string_view(typed).substr(colon + 1));
    if (std::isnan(number)) {
        throw Error(ErrorKind::input, "--curve", "\"" + io::harmless(typed) + "\"",
                    "a number behind the colon (power:2.2, pq:4000)");
    }
    return number;
}

CurveOptions curve_typed(const std::string& typed) {
    constexpr std::array<CurveKind, 5> kinds = {CurveKind::bt1886, CurveKind::power,
                                                CurveKind::srgb, CurveKind::pq, CurveKind::hlg};
    const std::size_t colon = typed.find(':');
    const std::string name = typed.substr(0, colon);
    const auto kind = std::find_if(kinds.begin(), kinds.end(),
                                   [&name](CurveKind k) { return name == code_of(k); });
    CurveOptions options;
    const bool number = colon != std::string::npos;
    const bool may = kind != kinds.end() && (*kind == CurveKind::power || *kind == CurveKind::pq);
    if (kind == kinds.end() || (number && !may) || (!number && *kind == CurveKind::power)) {
        throw Error(ErrorKind::input, "--curve", "\"" + io::harmless(typed) + "\"",
                    "bt1886, power:EXPONENT, srgb, pq, pq:PROGRAMME-PEAK or hlg");
    }
    options.kind = *kind;
    if (number && options.kind == CurveKind::power) {
        options.exponent = number_behind(typed, colon);
    } else if (number) {
        options.programme_peak_cd_m2 = number_behind(typed, colon);
    }
    return options;
}

void take_ends(const IntentTyped& typed, const MeasuredEnds& ends, CurveOptions& options,
               std::vector<std::string>& understood) {
    const bool absolute = options.kind == CurveKind::pq || options.kind == CurveKind::hlg;
    if (const auto white = typed.white_cd_m2 ? typed.white_cd_m2 : ends.white_cd_m2) {
        options.white_cd_m2 = *white;
    } else if (absolute) {
        throw Error(ErrorKind::input, "--peak", "none, and no white measured",
                    "the display's peak, cd/m2, which PQ and HLG need");
    }
    if (const auto black = typed.black_cd_m2 ? typed.black_cd_m2 : ends.black_cd_m2) {
        // Noise about no light.
        options.black_cd_m2 = typed.black_cd_m2 ? *black : std::max(0.0, *black);
    }
    if (!typed.white_cd_m2) {
        understood.push_back(
            ends.white_cd_m2 ? "White as measured: " + to_text(options.white_cd_m2, 4) + " cd/m2."
                             : "No white measured and none named: taken to be " +
                                   to_text(options.white_cd_m2, 4) + " cd/m2.");
    }
    if (!typed.black_cd_m2 && ends.black_cd_m2) {
        understood.push_back("Black as measured: " + to_text(options.black_cd_m2, 4) + " cd/m2.");
    }
}

/// Which option a curve's error is about.
const char* option_at_fault(const CurveOptions& options) {
    constexpr double brightest_cd_m2 = 1e5;
    constexpr double brightest_pq_cd_m2 = 1e4;
    constexpr double darkest_hlg_cd_m2 = 1.0;
    const double white = options.white_cd_m2;
    const bool pq = options.kind == CurveKind::pq;
    if (!(white > 0.0 && white <= (pq ? brightest_pq_cd_m2 : brightest_cd_m2)) ||
        (options.kind == CurveKind::hlg && white < darkest_hlg_cd_m2)) {
        return "--peak";
    }
    if (!(options.black_cd_m2 >= 0.0 && options.black_cd_m2 < 0.1 * white)) {
        return "--black";
    }
    const double programme = options.programme_peak_cd_m2.value_or(brightest_pq_cd_m2);
    const bool of_curve =
        options.kind == CurveKind::power || !(programme >= 1.0 && programme <= brightest_pq_cd_m2);
    return of_curve ? "--curve" : "--black";
}

/// What is wrong with a curve is said of the option, and whether its value was measured.
SignalCurve curve_of(const CurveOptions& options, const IntentTyped& typed) {
    try {
        return SignalCurve(options);
    } catch (const Error& error) {
        const std::string option = option_at_fault(options);
        if (option == "--black" && !typed.black_cd_m2 && typed.white_cd_m2 &&
            options.black_cd_m2 >= 0.1 * options.white_cd_m2) {
            throw Error(ErrorKind::input, "--peak",
                        to_text(options.white_cd_m2) + " cd/m2 above a black of " +
                            to_text(options.black_cd_m2, 4) + " cd/m2, as measured",
                        "more than ten times the black");
        }
        const bool measured = (option == "--peak" && !typed.white_cd_m2) ||
                              (option == "--black" && !typed.black_cd_m2);
        throw Error(ErrorKind::input, option, error.found() + (measured ? ", as measured" : ""),
                    error.wanted());
    }
}

/// Whatever is derived from such light is within the range of PQ.
void require_range(const IntendedDisplay& chosen) {
    const auto white = chosen.white();
    if (std::any_of(white.begin(), white.end(), [](double v) { return v > largest_light_cd_m2; })) {
        throw Error(ErrorKind::input, "--peak",
                    "a white of X " + to_text(white[0], 0) + ", Y " + to_text(white[1], 0) +
                        ", Z " + to_text(white[2], 0) + " cd/m2",
                    "each up to " + to_text(largest_light_cd_m2, 0) + " cd/m2");
    }
}

IntendedDisplay about_white(const IntendedDisplay& plain, const std::optional<Xy>& white) {
    if (!white) {
        return plain;
    }
    try {
        return plain.with_white(*white);
    } catch (const Error& error) {
        throw Error(ErrorKind::input, "--white", error.found(),
                    "a white inside it (--encoding says whose primaries)");
    }
}

}  // namespace

std::optional<Xy> chosen_white_typed(const std::string& typed) {
    if (typed.empty()) {
        return {};
    }
    const auto numbers = reading_typed(typed, "--white", ReadingOf::colour);
    const Xy white = numbers ? numbers->xy : white_in_answer(typed);
    // The widest of the standards: no display's white lies beyond, whatever its own primaries are.
    try {
        static_cast<void>(
            IntendedDisplay{RgbEncoding::of<Bt2020>(), SignalCurve({})}.with_white(white));
    } catch (const Error& error) {
        throw Error(ErrorKind::input, "--white", error.found(),
                    "a white within BT.2020's primaries");
    }
    return white;
}

std::vector<Warning> doubts_of_white(const std::string& typed) {
    const auto numbers = reading_typed(typed, "--white", ReadingOf::colour);
    if (!numbers) {
        return {};
    }
    const Xy& xy = numbers->xy;
    if (!xy_exchange_of_white({xy.x(), xy.y()}, {xy.y(), xy.x()})) {
        return {};
    }
    return {Warning{"white_looks_exchanged", {{"x", xy.x()}, {"y", xy.y()}}}};
}

IntentOpened open_intent(const IntentTyped& typed, const MeasuredEnds& ends) {
    std::vector<std::string> understood;
    RgbEncoding encoding = encoding_typed(typed.encoding, understood);
    CurveOptions options = curve_typed(typed.curve);
    take_ends(typed, ends, options, understood);
    const std::optional<Xy> white = chosen_white_typed(typed.white);
    IntendedDisplay plain{std::move(encoding), curve_of(options, typed)};
    IntendedDisplay chosen = about_white(plain, white);
    require_range(chosen);
    return {std::move(chosen), std::move(plain), white.has_value(), std::move(understood),
            doubts_of_white(typed.white)};
}

}  // namespace samelight::report
