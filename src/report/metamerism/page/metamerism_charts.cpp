#include "report/metamerism/page/metamerism_charts.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <limits>
#include <optional>
#include <utility>

#include <Eigen/Core>

#include "report/metamerism/page/metamerism_words.hpp"
#include "report/words/light_drawn.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/metamerism/comparison.hpp"
#include "samelight/report/document.hpp"
#include "samelight/report/metamerism_answer.hpp"

namespace samelight::report {

Chart pairs_chart(const MetamerismAnswer& answer) {
    Matrix matrix;
    for (const assess::MetamerismPanel& panel : answer.panels) {
        matrix.names.push_back(panel.name + (panel.generic ? " (generic)" : ""));
    }
    for (std::size_t i = 0; i < answer.panels.size(); ++i) {
        for (std::size_t j = 0; j < answer.panels.size(); ++j) {
            if (i == j) {
                matrix.cells.push_back({std::numeric_limits<double>::quiet_NaN(), ""});
                continue;
            }
            const double mean = answer.matrix.pair(i, j).figures[i < j ? 0 : 1].white_de00.mean;
            matrix.cells.push_back({mean, de_said(mean)});
        }
    }
    return {"What people see between the whites",
            "Average DE over viewers between the whites of every pair of displays: above the "
            "diagonal as set, below it with white targets.",
            std::move(matrix)};
}

std::optional<Chart> whites_chart(const MetamerismAnswer& answer) {
    struct Look {
        Ink ink;
        Stroke stroke;
    };
    constexpr std::array<Look, 6> looks = {{{Ink::accent, Stroke::solid},
                                            {Ink::second, Stroke::dashed},
                                            {Ink::third, Stroke::dotted},
                                            {Ink::text, Stroke::dash_dot},
                                            {Ink::accent, Stroke::dashed},
                                            {Ink::second, Stroke::solid}}};
    if (answer.displays.empty() || answer.displays.size() > looks.size()) {
        return {};
    }
    const Sampling& sampling = answer.displays.front().sampling();
    Plot plot{"wavelength, nm",
              "light, of each white's brightest",
              {sampling.first_nm(), sampling.last_nm()},
              {0.0, 1.05}};
    for (std::size_t k = 0; k < answer.displays.size(); ++k) {
        const Eigen::VectorXd sampled = answer.displays[k].native_white();
        const int step = step_of(sampled);
        const Eigen::MatrixXd white = averaged(sampled, step);
        const double peak = white.maxCoeff();
        Series line{answer.panels[k].name, {}, looks.at(k).ink, looks.at(k).stroke};
        for (Eigen::Index bin = 0; bin < white.rows(); ++bin) {
            line.points.push_back(
                {sampling.wavelength_nm(static_cast<int>(bin) * step), white(bin, 0) / peak});
        }
        plot.series.push_back(std::move(line));
    }
    return Chart{"Spectra of the whites",
                 "Light by wavelength of each display's native white, black taken off.",
                 std::move(plot)};
}

}  // namespace samelight::report
