// A program in C++ that has nothing of samelight but what is installed: prints the targets of the displays whose files are named, one a line, with all digits.
#include <cstdio>
#include <exception>

#include <samelight/io/named_lights.hpp>
#include <samelight/white/target.hpp>

int main(int count, char** files) {
    using namespace samelight;
    try {
        const io::NamedReference reference = io::open_reference("crt@0.3127,0.3290");
        for (int i = 1; i < count; ++i) {
            const io::NamedPanel panel = io::open_panel(files[i]);
            const Target target =
                white_target(panel.panel, reference.reference, standard_observer<Cie2015_2deg>());
            std::printf("%.17g %.17g\n", target.xy.x(), target.xy.y());
        }
    } catch (const std::exception& error) {
        std::fprintf(stderr, "%s\n", error.what());
        return 1;
    }
    return 0;
}
