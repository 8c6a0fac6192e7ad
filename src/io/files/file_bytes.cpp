#include "io/files/file_bytes.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdio>
#include <fstream>
#include <system_error>

#include "samelight/io/text_for_people.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::io::detail {

void require_size(std::uintmax_t bytes, std::uintmax_t most_bytes, const std::string& source,
                  const std::string& wanted) {
    if (bytes > most_bytes) {
        throw Error(ErrorKind::input, source, std::to_string(bytes) + " bytes",
                    wanted + ", at most " + std::to_string(most_bytes) + " bytes (" +
                        std::to_string(most_bytes >> 20U) + " MiB)");
    }
}

namespace {

std::string bytes_of_standard_input(std::uintmax_t most_bytes, const std::string& wanted) {
    const std::string source = source_name(standard_input);
    // The stream itself remembers that it was read to its end.
    if (std::feof(stdin) != 0) {
        throw Error(ErrorKind::input, ErrorPlace{source},
                    "named a second time, but can be read once",
                    "- in one place, and the names of files elsewhere");
    }
    std::string bytes;
    std::array<char, 65536> block{};
    while (std::feof(stdin) == 0) {
        const std::size_t count = std::fread(block.data(), 1, block.size(), stdin);
        if (std::ferror(stdin) != 0) {
            throw Error(ErrorKind::system, ErrorPlace{source}, "can't be read", wanted);
        }
        bytes.append(block.data(), count);
        require_size(bytes.size(), most_bytes, source, wanted);
    }
    return bytes;
}

}  // namespace

bool is_file_name(std::string_view text) {
    return text == standard_input || text.find_first_of("./\\") != std::string_view::npos;
}

std::string source_name(const std::filesystem::path& file) {
    return file == standard_input ? "standard input" : file.string();
}

std::string file_bytes(const std::filesystem::path& file, std::uintmax_t most_bytes,
                       const std::string& wanted) {
    if (file == standard_input) return bytes_of_standard_input(most_bytes, wanted);
    const std::string source = harmless(file.string());
    std::error_code problem;
    const std::filesystem::file_status status = std::filesystem::status(file, problem);
    if (status.type() == std::filesystem::file_type::not_found) {
        throw Error(ErrorKind::system, source, "no such file", wanted);
    }
    if (problem) {
        throw Error(ErrorKind::system, source, "can't be looked at (" + problem.message() + ")",
                    wanted);
    }
    if (status.type() != std::filesystem::file_type::regular) {
        const bool folder = status.type() == std::filesystem::file_type::directory;
        throw Error(ErrorKind::input, source, folder ? "a folder" : "neither a file nor a folder",
                    wanted);
    }
    const std::uintmax_t size = std::filesystem::file_size(file, problem);
    if (problem) {
        throw Error(ErrorKind::system, source, "can't be measured (" + problem.message() + ")",
                    wanted);
    }
    require_size(size, most_bytes, source, wanted);
    std::ifstream stream(file, std::ios::binary);
    // One byte more than it should have: it may have grown since it was measured.
    std::string bytes(static_cast<std::size_t>(size) + 1, '\0');
    if (!stream.is_open()) {
        throw Error(ErrorKind::system, source, "can't be opened", wanted);
    }
    stream.read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    if (stream.bad()) {
        throw Error(ErrorKind::system, source, "can't be read", wanted);
    }
    bytes.resize(static_cast<std::size_t>(stream.gcount()));
    if (bytes.size() > size) {
        throw Error(ErrorKind::input, source, "a file that grows while it is read",
                    wanted + " that is complete");
    }
    return bytes;
}

}  // namespace samelight::io::detail
