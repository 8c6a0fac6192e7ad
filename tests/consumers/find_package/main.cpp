#include <cmath>
#include <iostream>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/numeric/version.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/spectrum/illuminants.hpp"

int main() {
    using namespace samelight;
    const auto d65 = chromaticity(tristimulus<Cie1931_2deg>(d_illuminant(6500), {380, 5, 81}));
    std::cout << "samelight " << version << '\n' << d65.x() << ' ' << d65.y() << '\n';
    // CIE 15:2004, Table T.3: 0.31272, 0.32903.
    return std::abs(d65.x() - 0.31272) < 5e-6 && std::abs(d65.y() - 0.32903) < 5e-6 ? 0 : 1;
}
