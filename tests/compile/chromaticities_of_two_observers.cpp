// must fail: no match for 'operator-'|invalid operands to binary expression
// Two observers have two diagrams: the difference of a point in each means nothing.
#include "samelight/colour/chromaticity.hpp"

int main() {
    const samelight::Chromaticity<samelight::Cie1931_2deg> meter(0.3127, 0.3290);
#ifdef MUST_FAIL
    const samelight::Chromaticity<samelight::Cie2015_10deg> eye(0.3138, 0.3313);
#else
    const samelight::Chromaticity<samelight::Cie1931_2deg> eye(0.3138, 0.3313);
#endif
    return (meter - eye).distance() < 0.01 ? 0 : 1;
}
