// must fail: no match for 'operator\+'|invalid operands to binary expression
// A chromaticity is a place, a difference of two is a way: places don't add.
#include "samelight/colour/chromaticity.hpp"

int main() {
    using samelight::Cie1931_2deg;
    const samelight::Chromaticity<Cie1931_2deg> white(0.3127, 0.3290);
#ifdef MUST_FAIL
    const samelight::Chromaticity<Cie1931_2deg> step(0.001, 0.002);
#else
    const samelight::ChromaticityOffset<Cie1931_2deg> step(0.001, 0.002);
#endif
    return (white + step).x() > 0.3127 ? 0 : 1;
}
