"""The programs that check_forms.py compiles: what users of the two forms write."""

# A white target and a colour difference, by whichever form the source that includes this is compiled for.
TARGET = r"""
#include <cstdio>
#include <string>

#include "samelight/colour/differences/difference.hpp"
#include "samelight/colour/spaces/lab.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/target.hpp"

std::string NAME() {
    using namespace samelight;
    const Target target = white_target(generic_panel(generic_model("oled-rgb")),
                                       illuminant_reference("D65"), standard_observer<Cie2015_2deg>());
    const Tristimulus<Cie1931_2deg> white(0.95047, 1.0, 1.08883);
    const double difference = delta_e_2000(Lab<Cie1931_2deg>(50.0, 2.6772, -79.7751, white),
                                           Lab<Cie1931_2deg>(50.0, 0.0, -82.7485, white));
    char text[100];
    std::snprintf(text, sizeof text, "%.17g %.17g %.17g", target.xy.x(), target.xy.y(), difference);
    return text;
}
"""

# Of the second source of the compiled form: other headers, some of the same functions, an Error.
MORE = r"""
#include <string>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/statistics.hpp"
#include "samelight/observer/by_name.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/illuminants.hpp"

bool other_source() {
    using namespace samelight;
    try {
        observer_named("nobody");
    } catch (const Error& error) {
        return error.kind() == ErrorKind::domain &&
            observer_named("cie2015-2deg").id() == standard_observer<Cie2015_2deg>().id();
    }
    return false;
}
"""

# The batch functions and what they stand on.
BATCHES = r"""
#include <array>
#include <cmath>
#include <span>
#include <vector>

#include "samelight/colour/appearance/ciecam16_batch.hpp"
#include "samelight/colour/differences/difference_batch.hpp"
#include "samelight/colour/spaces/ictcp_batch.hpp"
#include "samelight/colour/spaces/lab_batch.hpp"
#include "samelight/colour/spaces/luv_batch.hpp"
#include "samelight/colour/signals/transfer_batch.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus_batch.hpp"

namespace {

template <class T>
bool batches() {
    using namespace samelight;
    constexpr std::size_t n = 37;
    std::vector<T> a(n), b(n), c(n), x(n), y(n), z(n), difference(n);
    for (std::size_t i = 0; i < n; ++i) {
        a[i] = T(0.2) + T(0.01) * T(i);
        b[i] = T(0.1) + T(0.02) * T(i);
        c[i] = T(0.3) + T(0.005) * T(i);
    }
    const auto in = [&] { return Columns3<const T>(std::span<const T>(a), std::span<const T>(b), std::span<const T>(c)); };
    const auto out = [&] { return Columns3<T>(std::span<T>(x), std::span<T>(y), std::span<T>(z)); };
    const Tristimulus<Cie1931_2deg> white(0.95047, 1.0, 1.08883);
    lab_from_xyz<T>(in(), white, out());
    const Columns3<const T> found{std::span<const T>(x), std::span<const T>(y), std::span<const T>(z)};
    bool well = true;
    for (std::size_t i = 0; i < n; ++i) {
        const auto one = lab(Tristimulus<Cie1931_2deg>(a[i], b[i], c[i]), white);
        well = well && std::abs(one.L() - double(x[i])) < 1e-3 && std::abs(one.a() - double(y[i])) < 1e-3;
    }
    delta_e_2000<T>(found, found, std::span<T>(difference));
    delta_e_ab<T>(found, found, std::span<T>(difference));
    delta_e_94<T>(found, found, std::span<T>(difference));
    delta_e_cmc<T>(found, found, std::span<T>(difference));
    for (const T value : difference) {
        well = well && std::abs(value) < T(1e-3);
    }
    xyz_from_lab<T>(found, white, out());
    for (std::size_t i = 0; i < n; ++i) {
        well = well && std::abs(x[i] - a[i]) < T(1e-4) && std::abs(z[i] - c[i]) < T(1e-4);
    }
    const auto curves = standard_observer<Cie1931_2deg>().on(Sampling());
    const std::size_t count = std::size_t(Sampling().count());
    const std::vector<T> lights(5 * count, T(1));
    std::vector<T> sums(15);
    tristimulus_batch<T>(curves, std::span<const T>(lights), std::span<T>(sums));
    for (std::size_t i = 0; i < 5; ++i) {
        well = well && std::abs(sums[3 * i] / sums[1] - T(1)) < T(1e-2);
    }
    return well;
}

}  // namespace

bool NAME() { return batches<double>() && batches<float>(); }
"""

BOTH_FORMS_MAIN = r"""
#include <cstdio>
#include <string>

std::string target_by_headers();
std::string target_by_library();
bool other_source();

int main() {
    const std::string one = target_by_headers(), other = target_by_library();
    std::printf("headers alone:    %s\ncompiled library: %s\n", one.c_str(), other.c_str());
    return one == other && other_source() ? 0 : 1;
}
"""

SHARED = r"""
#include <cstring>
#include <string>

#include "samelight/numeric/error.hpp"
#include "samelight/observer/by_name.hpp"

std::string target_by_library();

extern "C" __attribute__((visibility("default"))) int shared_target(char* text, int size) {
    std::strncpy(text, target_by_library().c_str(), static_cast<std::size_t>(size));
    return 0;
}

// 0: thrown by the library and caught as what it is; 1: its text isn't it; 2: caught as something else; 3: not thrown.
extern "C" __attribute__((visibility("default"))) int shared_error() {
    try {
        samelight::observer_named("nobody");
    } catch (const samelight::Error& error) {
        return error.kind() == samelight::ErrorKind::domain && std::strstr(error.what(), "nobody") != nullptr ? 0 : 1;
    } catch (...) {
        return 2;
    }
    return 3;
}

// The same where the user's own code throws it.
extern "C" __attribute__((visibility("default"))) int shared_own_error() {
    try {
        throw samelight::Error(samelight::ErrorKind::input, "here", "this", "that");
    } catch (const samelight::Error& error) {
        return error.kind() == samelight::ErrorKind::input ? 0 : 1;
    } catch (...) {
        return 2;
    }
    return 3;
}

// For the program, which has the library inside as well.
__attribute__((visibility("default"))) void throw_out() { samelight::observer_named("nobody"); }
"""

SHARED_MAIN = r"""
#include "samelight/numeric/error.hpp"
#include "samelight/observer/by_name.hpp"

void throw_out();

int main() {
    if (samelight::observer_named("cie1931-2deg").id() != "cie1931-2deg") {
        return 1;
    }
    try {
        throw_out();
    } catch (const samelight::Error&) {
        return 0;
    } catch (...) {
        return 2;
    }
    return 3;
}
"""

QUANTILES = r"""
#include <cstdio>

#include "samelight/numeric/distributions.hpp"
#include "samelight/numeric/quantile.hpp"

int main() {
    using namespace samelight;
    std::printf("%.3f %.3f %.3f\n", normal_quantile(0.975), student_quantile(0.975, 10.0),
                chi_squared_quantile(0.95, 10.0));
}
"""

SIZE = r"""
#include <cstdio>

#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/target.hpp"

int main() {
    using namespace samelight;
    const Target target = white_target(generic_panel(generic_model("oled-rgb")),
                                       illuminant_reference("D65"), standard_observer<Cie2015_2deg>());
    std::printf("x %.4f, y %.4f\n", target.xy.x(), target.xy.y());
}
"""
