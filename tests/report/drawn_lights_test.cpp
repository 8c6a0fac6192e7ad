// What pictures are drawn of: lights in bins, limits that hold all that is to be seen, and lists that say how much they leave out.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <fstream>
#include <string>
#include <variant>
#include <vector>

#include <gtest/gtest.h>
#include <Eigen/Core>

#include "io/scratch_folder.hpp"
#include "report/spectrum/page/spectrum_chart.hpp"
#include "report/spectrum/page/spectrum_client.hpp"
#include "report/white/page/white_charts.hpp"
#include "report/words/light_drawn.hpp"
#include "samelight/report/document.hpp"
#include "samelight/report/render.hpp"
#include "samelight/report/spectrum_answer.hpp"
#include "samelight/report/white_answer.hpp"

namespace samelight::report {
namespace {

TEST(DrawnLights, AreMeansOfTheirBins) {
    Eigen::MatrixXd lights(7, 2);
    lights << 1, 10, 2, 20, 6, 60, 3, 30, 5, 50, 10, 100, 99, 990;
    // Bins of three; what is left over at the end makes none.
    const Eigen::MatrixXd means = averaged(lights, 3);
    ASSERT_EQ(means.rows(), 2);
    for (Eigen::Index k = 0; k < 2; ++k) {
        const double unit = k == 0 ? 1.0 : 10.0;
        EXPECT_NEAR(means(0, k), 3.0 * unit, 1e-12);
        EXPECT_NEAR(means(1, k), 6.0 * unit, 1e-12);
    }
    EXPECT_TRUE(averaged(lights, 1) == lights);
    // Read at every third sample: two of three are empty.
    Eigen::VectorXd thinned = Eigen::VectorXd::Zero(13);
    for (Eigen::Index i = 1; i < 13; i += 3) {
        thinned[i] = 1.0 + static_cast<double>(i);
    }
    EXPECT_EQ(step_of(thinned), 3);
    EXPECT_EQ(step_of(Eigen::VectorXd::Ones(13)), 1);
    EXPECT_EQ(step_of(Eigen::VectorXd::Zero(13)), 1);
}

class DrawnFiles : public io::test::ScratchFolder {
  protected:
    /// Bells of height 2 at 400, 410, ... nm; the first with a dip below zero where a dark level was taken off.
    [[nodiscard]] std::string written(std::size_t columns) const {
        const std::string path = (folder_ / "lights.csv").string();
        std::ofstream file(path);
        file << "wavelength_nm";
        for (std::size_t k = 0; k < columns; ++k) {
            file << ",light " << k;
        }
        for (int nm = 380; nm <= 780; nm += 5) {
            file << '\n' << nm;
            for (std::size_t k = 0; k < columns; ++k) {
                const double t = (nm - 400.0 - 10.0 * static_cast<double>(k)) / 20.0;
                file << ',' << 2.0 * std::exp(-t * t) - (k == 0 && nm == 700 ? 0.004 : 0.0);
            }
        }
        file << '\n';
        return path;
    }
};

TEST_F(DrawnFiles, AllThatWasReadLiesWithinTheLimits) {
    const SpectrumAnswer answer = answer_spectrum({written(3), {}, {}, ""});
    const auto chart = file_chart(answer);
    ASSERT_TRUE(chart);
    const Plot& plot = std::get<Plot>(chart->drawing);
    ASSERT_EQ(plot.series.size(), 3U);
    double lowest = 1.0;
    double highest = 0.0;
    for (const Series& series : plot.series) {
        ASSERT_EQ(series.points.size(), 81U);
        for (const Point& point : series.points) {
            EXPECT_GE(point[0], plot.x_limits[0]);
            EXPECT_LE(point[0], plot.x_limits[1]);
            EXPECT_GE(point[1], plot.y_limits[0]);
            EXPECT_LE(point[1], plot.y_limits[1]);
            lowest = std::min(lowest, point[1]);
            highest = std::max(highest, point[1]);
        }
    }
    // As shares of the brightest, from as low as they go.
    EXPECT_EQ(highest, 1.0);
    EXPECT_EQ(plot.y_limits[0], lowest);
    EXPECT_LT(lowest, 0.0);
    EXPECT_EQ(plot.x_limits, (Point{380.0, 780.0}));
}

TEST_F(DrawnFiles, OfManyLightsAnOwnerIsToldHowManyMoreThereAre) {
    constexpr std::size_t columns = 31;
    const std::vector<SpectrumAnswer> answers = {answer_spectrum({written(columns), {}, {}, ""})};
    const Document document = spectra_client_document(answers);
    std::size_t told = 0;
    std::size_t more = 0;
    for (const Section& section : document.sections) {
        for (const Block& block : section.blocks) {
            if (const List* list = std::get_if<List>(&block.content)) {
                for (const std::string& item : list->items) {
                    if (item.rfind("And ", 0) == 0) {
                        more += std::stoul(item.substr(4));
                    } else {
                        ++told;
                    }
                }
            }
        }
    }
    EXPECT_GT(more, 0U);
    EXPECT_EQ(told + more, columns);
}

TEST(NearWhite, EveryWhiteLiesWithinASquareAboutThem) {
    WhiteRequest request;
    request.panels = {"oled-white", "lcd-white-led"};
    request.reference = "crt@0.3127,0.3290";
    request.people = 64;
    const WhiteAnswer answer = answer_white(request);
    for (const auto& part : answer.panels) {
        const auto chart = chromaticity_chart(answer, part);
        ASSERT_TRUE(chart);
        const Plot& plot = std::get<Plot>(chart->drawing);
        EXPECT_TRUE(plot.same_scale);
        const double across = plot.x_limits[1] - plot.x_limits[0];
        EXPECT_NEAR(plot.y_limits[1] - plot.y_limits[0], across, 1e-12);
        // No less than 0.02 of x and y, and no more than what is near white.
        EXPECT_GE(across, 0.02 - 1e-12);
        EXPECT_LT(across, 0.2);
        std::vector<Point> whites = {{answer.reference.xy().x(), answer.reference.xy().y()},
                                     {part.dialled().xy.x(), part.dialled().xy.y()}};
        if (part.targets.native_white) {
            whites.push_back({part.targets.native_white->x(), part.targets.native_white->y()});
        }
        for (const Point& white : whites) {
            for (const auto& [at, limits] :
                 {std::pair{white[0], plot.x_limits}, std::pair{white[1], plot.y_limits}}) {
                // With a margin: a tenth of what the whites themselves take.
                EXPECT_GT(at, limits[0] + 0.05 * across);
                EXPECT_LT(at, limits[1] - 0.05 * across);
            }
        }
    }
}

}  // namespace
}  // namespace samelight::report
