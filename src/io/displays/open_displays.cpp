// Displays from a list of words, some of which may together mean one display.
#include <algorithm>
#include <cstddef>
#include <filesystem>
#include <optional>
#include <string_view>
#include <utility>

#include "io/displays/panel_words.hpp"
#include "io/files/file_bytes.hpp"
#include "io/layout/layout.hpp"
#include "io/layout/roles.hpp"
#include "io/text/words.hpp"
#include "samelight/assess/error_words.hpp"
#include "samelight/io/displays.hpp"
#include "samelight/io/primary_readings_csv.hpp"
#include "samelight/io/text_for_people.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::io {
namespace {

constexpr const char* wanted_each =
    "one light of each kind, or red=FILE,green=FILE,blue=FILE,... for each display";

/// The roles of which a file's name has the word or the letter in it, each once: "client-set_R.csv".
std::vector<std::string_view> roles_in_name(const std::string& file) {
    std::vector<std::string_view> roles;
    const std::string stem = std::filesystem::path(file).stem().string();
    std::string word;
    const auto end_word = [&] {
        const std::string_view role = detail::role_of(word);
        if (!role.empty() && std::find(roles.begin(), roles.end(), role) == roles.end()) {
            roles.push_back(role);
        }
        word.clear();
    };
    for (const char c : stem) {
        if (detail::is_letter(c)) {
            word += c;
        } else {
            end_word();
        }
    }
    end_word();
    return roles;
}

/// The role that a file's name says; none where it says none, or more than one.
std::string_view role_in_name(const std::string& file) {
    const std::vector<std::string_view> roles = roles_in_name(file);
    return roles.size() == 1 ? roles.front() : std::string_view();
}

/// A file among the words that holds one light.
struct SingleLight {
    std::string word;
    detail::SetWhite set_to;
    SpectralFile file;
};

/// What the light of such a file is. Throws Error (input) where nothing says it, or two things disagree.
std::string role_of_single(const SingleLight& single) {
    const LightColumn& light = single.file.lights.front();
    const std::string_view heading = detail::role_of(light.name);
    const std::string_view name = role_in_name(single.file.source);
    const std::string source = harmless(single.file.source);
    if (heading.empty() && name.empty()) {
        throw Error(ErrorKind::input, ErrorPlace{source},
                    "one light, " + detail::shown(light.name) +
                        ", and neither its heading nor the file's name says which",
                    "red, green, blue, white or black in one of them, or red=FILE,green=FILE,...");
    }
    if (!heading.empty() && !name.empty() && heading != name) {
        throw Error(ErrorKind::input, ErrorPlace{source},
                    std::string(heading) + " by its heading, " + std::string(name) + " by its name",
                    "the same in both, or " + std::string(heading) + "=FILE or " +
                        std::string(name) + "=FILE in place of it");
    }
    return std::string(heading.empty() ? name : heading);
}

/// Reads the list and keeps what belongs together.
class ListOpener {
  public:
    ListOpener(const LightOptions& options, const Sampling& sampling, FilesOf files)
        : columns_(columns_in_options(options)),
          places_(places_in_options(options)),
          mark_(options.mark),
          sampling_(sampling),
          files_(files) {}

    OpenedDisplays open(const std::vector<std::string>& words) {
        require_primaries();
        for (const std::string& word : words) {
            open_word(word);
        }
        guarded([&] { open_any_singles(); });
        if (!places_.empty()) {
            guarded([&] {
                SpectralFile file = read_display_files(places_);
                add(file, {}, file.source);
            });
        }
        return std::move(result_);
    }

    OpenedDisplays open_one(const std::string& word) {
        open_word(word);
        guarded([&] { open_any_singles(); });
        if (!result_.errors.empty()) throw result_.errors.front();
        return std::move(result_);
    }

  private:
    /// A file for black alone, say, is meant for a display of the list; which, nobody says.
    void require_primaries() const {
        std::string missing;
        for (const char* role : {"red", "green", "blue"}) {
            const bool named =
                std::any_of(places_.begin(), places_.end(),
                            [&](const LightPlace& place) { return place.role == role; });
            if (!named) missing += (missing.empty() ? "" : ", ") + std::string(role);
        }
        if (places_.empty() || missing.empty()) return;
        throw Error(
            ErrorKind::input, ErrorPlace{mark_ + places_.front().role},
            harmless(places_.front().file) + ", and no file for " + missing,
            "files for red, green and blue, too; or in one word red=FILE,green=FILE,blue=FILE,..., "
            "of which some may be the same");
    }

    template <class F>
    void guarded(F&& work) {
        try {
            work();
        } catch (const Error& error) {
            result_.errors.push_back(error);
        }
    }

    /// What can't be meant is a slip in what was typed, and refused as a whole; what is wrong with a file is that display's own.
    void open_word(const std::string& word) {
        const detail::Asked asked = detail::take_apart(word);
        const std::vector<LightPlace> places = light_places(asked.name);
        if (!places.empty()) {
            const std::string setting = asked.set_to ? word.substr(word.rfind('@')) : "";
            guarded([&] {
                const SpectralFile file = read_display_files(places);
                add(file, asked.set_to, file.source + setting);
            });
        } else if (detail::is_file_name(asked.name)) {
            guarded([&] { open_file(word, asked); });
        } else {
            result_.displays.push_back(
                {word, assess::about({word}, [&] { return open_panel(word, sampling_); })});
        }
    }

    /// A display of spectra, under `name`.
    void add(const SpectralFile& file, const detail::SetWhite& set_to, const std::string& name) {
        NamedPanel display = assess::about({name}, [&] {
            return detail::panel_from_file(file, set_to, sampling_, mark_ + "columns");
        });
        result_.displays.push_back({name, std::move(display)});
    }

    void open_file(const std::string& word, const detail::Asked& asked) {
        const std::string source = detail::source_name(asked.name);
        std::optional<SpectralFile> read = [&] {
            try {
                return read_file(asked, source);
            } catch (const Error&) {
                if (!file_missing_) file_missing_ = result_.errors.size();
                throw;
            }
        }();
        if (!read) return;
        SpectralFile& file = *read;
        if (file.lights.size() == 1 && file.left_out == 0) {
            if (singles_.empty()) {
                place_of_singles_ = result_.displays.size();
                readings_before_singles_ = result_.readings.size();
            }
            singles_.push_back({word, asked.set_to, std::move(file)});
            return;
        }
        add(file, asked.set_to, asked.name == detail::standard_input ? file.source : word);
    }

    /// The file's spectra; none where it held readings, which are kept.
    std::optional<SpectralFile> read_file(const detail::Asked& asked, const std::string& source) {
        const std::string bytes =
            detail::file_bytes(asked.name, largest_spectral_file_bytes, "a file of spectra");
        if (take_readings(bytes, source, asked.set_to)) return std::nullopt;
        try {
            return spectra_in(bytes, source, asked.name);
        } catch (const Error& error) {
            if (files_ == FilesOf::spectra || !error.found().starts_with(detail::no_table)) throw;
            throw Error(error.kind(), error.place(), error.found(),
                        error.wanted() + "; or readings under one another, headed name,x,y,Y");
        }
    }

    /// Whether the file holds readings in numbers, where these are taken.
    bool take_readings(const std::string& bytes, const std::string& source,
                       const detail::SetWhite& set_to) {
        if (files_ == FilesOf::spectra || bytes.size() > detail::largest_small_file_bytes) {
            return false;
        }
        std::optional<NamedPrimaryReadings> read = parse_primary_readings(bytes, source);
        if (!read) return false;
        if (!columns_.empty()) {
            throw Error(ErrorKind::input, ErrorPlace{harmless(source)},
                        "a table of readings, which has no columns of spectra",
                        "a file of spectra, or neither " + mark_ + "columns" + " nor a column in " +
                            mark_ + "red to " + mark_ + "black");
        }
        result_.readings.push_back({source, std::move(*read), set_to, result_.displays.size()});
        return true;
    }

    /// A black alone may be noise around zero, which no other light may: then the file's name must say that it is one.
    [[nodiscard]] SpectralFile spectra_in(const std::string& bytes, const std::string& source,
                                          const std::string& name) const {
        try {
            return parse_spectral_csv(bytes, source, columns_);
        } catch (const Error&) {
            if (!columns_.empty() || role_in_name(name) != "black") throw;
        }
        const std::vector<LightChoice> black{{"black", {}}};
        SpectralFile file = parse_spectral_csv(bytes, source, black);
        // A display's file has its own reason why it can't be read.
        return file.left_out == 0 ? file : parse_spectral_csv(bytes, source);
    }

    void open_any_singles() {
        if (!singles_.empty()) assess::about({singles_.front().word}, [&] { open_singles(); });
    }

    void open_singles() {
        detail::SetWhite set_to;
        std::vector<SpectralFile> parts;
        for (SingleLight& single : singles_) {
            take_setting(single, set_to);
            if (singles_.size() > 1) give_role(single, parts);
            parts.push_back(std::move(single.file));
        }
        if (file_missing_ && parts.size() < detail::display_roles.size()) {
            say_with_missing(detail::title_of(harmless(parts.front().source), parts.size()));
            return;
        }
        const bool one = parts.size() == 1;
        SpectralFile display = one ? std::move(parts.front()) : detail::assembled(std::move(parts));
        NamedPanel panel = detail::panel_from_file(display, set_to, sampling_, mark_ + "columns");
        result_.displays.insert(
            result_.displays.begin() + static_cast<std::ptrdiff_t>(place_of_singles_),
            {one ? singles_.front().word : display.source, std::move(panel)});
        for (std::size_t i = readings_before_singles_; i < result_.readings.size(); ++i) {
            ++result_.readings[i].behind;
        }
    }

    /// What can't be read may be a light of the display of single files: that is left out with it, for one reason.
    void say_with_missing(const std::string& singles) {
        Error& missing = result_.errors.at(*file_missing_);
        missing = Error(missing.kind(), missing.place(),
                        missing.found() + "; " + singles +
                            ", of one light each, may be of the same display and can't be shown",
                        missing.wanted() + "; or red=FILE,green=FILE,... for that display");
    }

    /// A display is set to one white, on whichever of its files that is said.
    void take_setting(const SingleLight& single, detail::SetWhite& set_to) const {
        if (!single.set_to) return;
        if (set_to && !(*set_to == *single.set_to)) {
            const auto first =
                std::find_if(singles_.begin(), singles_.end(),
                             [](const SingleLight& other) { return other.set_to.has_value(); });
            throw Error(ErrorKind::input, ErrorPlace{harmless(single.word)},
                        "a second white as set, after " + harmless(first->word) +
                            ", and one light each, which make one display",
                        "one @x,y for a display");
        }
        set_to = single.set_to;
    }

    static void give_role(SingleLight& single, const std::vector<SpectralFile>& before) {
        const std::string role = role_of_single(single);
        for (const SpectralFile& other : before) {
            if (other.lights.front().name == role) {
                throw Error(ErrorKind::input, ErrorPlace{harmless(single.file.source)},
                            "a second light for " + role + ", after " + harmless(other.source),
                            wanted_each);
            }
        }
        LightColumn& light = single.file.lights.front();
        if (light.name != role) {
            single.file.understood.push_back(detail::shown(light.name) + " is " + role + '.');
            light.name = role;
        }
    }

    std::vector<LightChoice> columns_;
    std::vector<LightPlace> places_;
    std::string mark_;
    Sampling sampling_;
    FilesOf files_;
    OpenedDisplays result_;
    std::vector<SingleLight> singles_;
    std::size_t place_of_singles_ = 0;
    std::size_t readings_before_singles_ = 0;
    /// Index among the errors, where the first of them will stand.
    std::optional<std::size_t> file_missing_;
};

}  // namespace

OpenedDisplays open_displays(const std::vector<std::string>& words, const LightOptions& options,
                             const Sampling& sampling, FilesOf files) {
    return ListOpener(options, sampling, files).open(words);
}

OpenedDisplays open_display(const std::string& word, const LightOptions& options,
                            const Sampling& sampling, FilesOf files) {
    return ListOpener(options, sampling, files).open_one(word);
}

}  // namespace samelight::io
