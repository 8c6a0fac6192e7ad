#include "report/proof/judged_by.hpp"

#include <array>
#include <string>
#include <string_view>
#include <utility>

#include "report/words/short_name.hpp"
#include "samelight/colour/signals/rgb.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::report {

std::string encoding_short(const std::string& title) {
    constexpr std::array<std::pair<std::string_view, const char*>, 7> published = {{
        {Bt709::title, "BT.709"},
        {Bt2020::title, "BT.2020"},
        {P3D65::title, "P3-D65"},
        {P3Cinema::title, "P3 of the cinema"},
        {SmpteC::title, "SMPTE C"},
        {Ebu3213::title, "EBU 3213"},
        {Ntsc1953::title, "NTSC 1953"},
    }};
    for (const auto& [own, called] : published) {
        if (own == title) {
            return called;
        }
    }
    constexpr std::size_t room = 30;
    return "primaries of " + short_name(title, room);
}

std::string curve_short(const CurveOptions& curve) {
    switch (curve.kind) {
        case CurveKind::bt1886:
            return "BT.1886";
        case CurveKind::power:
            return "power " + to_text(curve.exponent);
        case CurveKind::srgb:
            return "sRGB";
        case CurveKind::pq:
            return curve.programme_peak_cd_m2
                       ? "PQ from " + to_text(*curve.programme_peak_cd_m2) + " cd/m2"
                       : "PQ";
        case CurveKind::hlg:
            break;
    }
    return "HLG";
}

KeyFigure judged_by(const IntendedDisplay& intended) {
    const auto& white = intended.encoding().primaries().white;
    return {"Judged by",
            curve_short(intended.curve().options()) + ", " +
                encoding_short(intended.encoding().title()) + ",",
            "white x " + to_text(white[0], 4) + ", y " + to_text(white[1], 4)};
}

}  // namespace samelight::report
