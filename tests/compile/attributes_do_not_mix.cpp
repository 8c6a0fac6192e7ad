// must fail: no matching member function|no matching function|could not convert|cannot convert
// A chroma is no colourfulness: they differ by a factor that depends on the light, and a bare number says which it is to nobody.
#include "samelight/colour/appearance/ciecam16.hpp"

int main() {
    using O = samelight::Cie1931_2deg;
    namespace at = samelight::attribute;
    const samelight::Ciecam16<O> model(
        {.white = {95.0, 100.0, 109.0}, .adapting_luminance_cd_m2 = 40.0});
#ifdef MUST_FAIL
    const auto light = model.tristimulus(at::Lightness{50.0}, 20.0, at::HueAngle{30.0});
#else
    const auto light = model.tristimulus(at::Lightness{50.0}, at::Chroma{20.0}, at::HueAngle{30.0});
#endif
    return light.Y() > 0.0 ? 0 : 1;
}
