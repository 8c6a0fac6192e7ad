#pragma once
// What tests share that give a job the same values twice: in memory, and written to files.
#include <algorithm>
#include <array>
#include <cstddef>
#include <filesystem>
#include <fstream>
#include <initializer_list>
#include <string>
#include <string_view>
#include <vector>

#include <gtest/gtest.h>

#include "io/scratch_folder.hpp"
#include "samelight/assess/listed_panel.hpp"
#include "samelight/assess/meter_table.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::test {

/// A folder for the files, and the writing of them.
class MemoryAndFiles : public io::test::ScratchFolder {
  protected:
    [[nodiscard]] std::string written(const std::string& name, const std::string& text) const {
        const std::filesystem::path file = folder_ / name;
        std::ofstream(file, std::ios::binary) << text;
        return file.string();
    }
};

inline std::vector<std::string> warning_codes(const std::vector<Warning>& warnings) {
    std::vector<std::string> codes;
    for (const Warning& warning : warnings) {
        codes.push_back(warning.code);
    }
    return codes;
}

inline bool has_code(const std::vector<Warning>& warnings, std::string_view code) {
    return std::any_of(warnings.begin(), warnings.end(),
                       [&](const Warning& warning) { return warning.code == code; });
}

/// Spectra on the same wavelengths, as a file.
inline std::string spectra_csv(const std::vector<std::string>& names,
                               const std::vector<Spectrum>& lights) {
    std::string csv = "wavelength_nm";
    for (const std::string& name : names) {
        csv += "," + name;
    }
    for (std::size_t i = 0; i < lights.front().size(); ++i) {
        csv += "\n" + to_text(lights.front().wavelengths_nm()[i]);
        for (const Spectrum& light : lights) {
            csv += "," + to_text(light.values()[i]);
        }
    }
    return csv + "\n";
}

inline std::string panel_csv(const PanelSpectra& spectra) {
    std::vector<std::string> names{"red", "green", "blue"};
    std::vector<Spectrum> lights{spectra.red, spectra.green, spectra.blue};
    if (spectra.white) {
        names.emplace_back("white");
        lights.push_back(*spectra.white);
    }
    return spectra_csv(names, lights);
}

/// A generic panel of the list.
inline assess::ListedPanel generic_listed(std::string_view name) {
    const auto list = assess::generic_panel_list();
    return *std::find_if(list.begin(), list.end(),
                         [&](const assess::ListedPanel& panel) { return panel.name == name; });
}

}  // namespace samelight::test
