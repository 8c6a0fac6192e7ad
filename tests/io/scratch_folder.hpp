#pragma once
// A folder of its own for each test, gone afterwards.
#include <filesystem>
#include <string>

#include <gtest/gtest.h>
#include <stdlib.h>

namespace samelight::io::test {

class ScratchFolder : public testing::Test {
  protected:
    void SetUp() override {
        std::string name =
            (std::filesystem::temp_directory_path() / "samelight-test-XXXXXX").string();
        ASSERT_NE(::mkdtemp(name.data()), nullptr);
        folder_ = name;
    }
    void TearDown() override { std::filesystem::remove_all(folder_); }

    std::filesystem::path folder_;
};

}  // namespace samelight::io::test
