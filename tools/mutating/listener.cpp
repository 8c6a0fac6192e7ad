// Which changes each test reaches, and how long it takes: put into each test program of the copy by tools/mutate.
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <fstream>
#include <set>
#include <string>

#include <gtest/gtest.h>

#include "mutant.hpp"

namespace {

class MutantListener : public testing::EmptyTestEventListener {
    using Clock = std::chrono::steady_clock;
    Clock::time_point start_;

    static std::set<int> take() {
        std::set<int> ids;
        for (int id = 0; id < mutant::most; ++id) {
            if (mutant::reached[id] != 0) {
                ids.insert(id);
            }
        }
        std::memset(mutant::reached, 0, sizeof mutant::reached);
        // What programs that the test started have left.
        if (const char* path = std::getenv("SAMELIGHT_MUTANT_REACHED")) {
            std::ifstream file(path);
            for (int id = 0; file >> id;) {
                ids.insert(id);
            }
            file.close();
            std::remove(path);
        }
        return ids;
    }

    static void write(const std::string& name, const char* outcome, double seconds) {
        const char* path = std::getenv("SAMELIGHT_MUTANT_RECORD");
        if (path == nullptr) {
            return;
        }
        std::ofstream file(path, std::ios::app);
        file << name << '\t' << outcome << '\t' << seconds << '\t';
        for (const int id : take()) {
            file << id << ' ';
        }
        file << '\n';
    }

    void OnTestIterationStart(const testing::UnitTest&, int) override { write("*", "passed", 0.0); }
    // Of a suite's own preparation.
    void OnTestStart(const testing::TestInfo& info) override {
        write(std::string(info.test_suite_name()) + ".*", "passed", 0.0);
        start_ = Clock::now();
    }
    void OnTestEnd(const testing::TestInfo& info) override {
        const double seconds = std::chrono::duration<double>(Clock::now() - start_).count();
        const auto& result = *info.result();
        write(std::string(info.test_suite_name()) + "." + info.name(),
              result.Skipped()  ? "skipped"
              : result.Passed() ? "passed"
                                : "failed",
              seconds);
    }
};

const bool mutant_listening = [] {
    if (mutant::chosen < 0) {
        testing::UnitTest::GetInstance()->listeners().Append(new MutantListener);
    }
    return true;
}();

}  // namespace
