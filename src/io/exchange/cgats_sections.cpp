// Source: CGATS.17-2009 and ISO 28178 as the check values of this project state them: sections and their markers (read), keywords (from
// memory). What they don't state is our own: comment lines begin with #, quotation marks in quoted words are doubled.
#include "io/exchange/cgats_sections.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <set>
#include <utility>

#include "io/text/numbers.hpp"
#include "io/text/words.hpp"

namespace samelight::io::detail {

namespace {

constexpr std::size_t most_lines_of_sections = 200000;
constexpr auto nowhere = std::string_view::npos;

/// A number that the preamble states, and where.
struct Stated {
    std::size_t number = 0;
    std::size_t offset = 0;
};

class CgatsReader {
  public:
    explicit CgatsReader(const Original& file) : file_(file) {}

    CgatsFile read() {
        const std::string_view text = file_.text();
        std::size_t lines = 0;
        for (std::size_t begin = 0; begin < text.size();) {
            const std::size_t end = std::min(text.find_first_of("\r\n", begin), text.size());
            if (++lines > 2 * most_lines_of_sections) refuse_lines(begin);
            take_line(trimmed(text.substr(begin, end - begin)));
            begin = end + 1;
        }
        if (state_ == State::format) refuse_open("BEGIN_DATA_FORMAT", "END_DATA_FORMAT");
        if (state_ == State::data) refuse_open("BEGIN_DATA", "END_DATA");
        if (result_.sections.empty()) {
            file_.refuse(begun_at_, "no BEGIN_DATA", "sets between BEGIN_DATA and END_DATA");
        }
        result_.understood.emplace_back("CGATS.17 text.");
        if (tabs_) result_.understood.emplace_back("Values told apart by tabs alone.");
        return std::move(result_);
    }

  private:
    enum class State { preamble, format, data };

    [[noreturn]] void refuse_lines(std::size_t offset) const {
        file_.refuse(offset, "more than " + std::to_string(most_lines_of_sections) + " lines",
                     "a file of sets, which has fewer");
    }

    [[noreturn]] void refuse_open(const std::string& begin, const std::string& end) const {
        file_.refuse(begun_at_, begin + " without " + end, end + " behind it");
    }

    void take_line(std::string_view line) {
        if (line.empty()) return;
        if (line.front() == '#' && !is_set_named_so(line)) {
            result_.remarks.push_back({trimmed(line.substr(1))});
            return;
        }
        if (state_ == State::data && !is_keyword(line)) {
            take_set(line);
            return;
        }
        const std::vector<CgatsWord> words = words_of(file_, line);
        if (state_ == State::format) {
            take_format(words);
        } else if (state_ == State::data) {
            end_data(words);
        } else {
            take_keyword(words);
        }
    }

    /// A set whose first value begins like a comment: "#1 0.5 0.5 0.5".
    [[nodiscard]] bool is_set_named_so(std::string_view line) const {
        if (state_ != State::data || line.size() < 2 || line[1] == ' ' || line[1] == '\t' ||
            line.find('"') != nowhere) {
            return false;
        }
        return words_of(file_, line).size() == section_.fields.size();
    }

    static bool is_keyword(std::string_view line) {
        constexpr std::array<std::string_view, 6> keywords = {
            "BEGIN_DATA",      "END_DATA",         "BEGIN_DATA_FORMAT",
            "END_DATA_FORMAT", "NUMBER_OF_FIELDS", "NUMBER_OF_SETS"};
        const std::string_view first = line.substr(0, line.find_first_of(" \t"));
        return std::find(keywords.begin(), keywords.end(), first) != keywords.end();
    }

    [[nodiscard]] std::size_t offset_of(const CgatsWord& word) const {
        return file_.offset_of(word.text);
    }

    void take_keyword(const std::vector<CgatsWord>& words) {
        const std::string_view keyword = words.front().text;
        if (keyword == "BEGIN_DATA_FORMAT") {
            state_ = State::format;
            begun_at_ = offset_of(words.front());
            section_.fields.clear();
            take_format({words.begin() + 1, words.end()});
        } else if (keyword == "BEGIN_DATA") {
            begin_data(words);
        } else if (keyword == "END_DATA" || keyword == "END_DATA_FORMAT") {
            file_.refuse(offset_of(words.front()), std::string(keyword) + " without its beginning",
                         "BEGIN_" + std::string(keyword.substr(4)) + " before it");
        } else if (keyword == "NUMBER_OF_FIELDS") {
            fields_ = stated(words);
        } else if (keyword == "NUMBER_OF_SETS") {
            sets_ = stated(words);
        } else if (keyword == "DESCRIPTOR" && words.size() > 1) {
            result_.remarks.push_back(words[1]);
        }
    }

    [[nodiscard]] Stated stated(const std::vector<CgatsWord>& words) const {
        Stated result{0, offset_of(words.front())};
        const std::string_view text = words.size() == 2 ? words[1].text : std::string_view();
        const auto read = std::from_chars(text.data(), text.data() + text.size(), result.number);
        if (text.empty() || read.ec != std::errc() || read.ptr != text.data() + text.size()) {
            file_.refuse(result.offset,
                         std::string(words.front().text) + " " +
                             (words.size() > 1 ? shown(words[1].text) : "and nothing behind it"),
                         "a whole number behind it");
        }
        return result;
    }

    void take_format(const std::vector<CgatsWord>& words) {
        for (std::size_t i = 0; i < words.size(); ++i) {
            const std::string_view name = words[i].text;
            if (name == "END_DATA_FORMAT") {
                if (i + 1 < words.size()) {
                    file_.refuse(offset_of(words[i + 1]),
                                 shown(words[i + 1].text) + " behind END_DATA_FORMAT",
                                 "a line of its own");
                }
                end_format();
                return;
            }
            if (name == "BEGIN_DATA" || name == "BEGIN_DATA_FORMAT" || name == "END_DATA") {
                refuse_open("BEGIN_DATA_FORMAT", "END_DATA_FORMAT");
            }
            section_.fields.push_back(words[i]);
        }
    }

    void end_format() {
        state_ = State::preamble;
        if (section_.fields.empty()) {
            file_.refuse(begun_at_, "no field between BEGIN_DATA_FORMAT and END_DATA_FORMAT",
                         "the names of the fields");
        }
        std::set<std::string_view> names;
        for (const CgatsWord& field : section_.fields) {
            if (!is_spectral_field(field.text) && !names.insert(field.text).second) {
                file_.refuse(offset_of(field), "the field " + shown(field.text) + " a second time",
                             "each field once");
            }
        }
    }

    void begin_data(const std::vector<CgatsWord>& words) {
        begun_at_ = offset_of(words.front());
        if (section_.fields.empty()) {
            file_.refuse(begun_at_, "BEGIN_DATA without fields",
                         "BEGIN_DATA_FORMAT, the fields' names and END_DATA_FORMAT before it");
        }
        if (words.size() > 1) {
            file_.refuse(offset_of(words[1]), shown(words[1].text) + " behind BEGIN_DATA",
                         "each set in a line of its own");
        }
        if (fields_ && fields_->number != section_.fields.size()) {
            file_.refuse(fields_->offset,
                         "NUMBER_OF_FIELDS " + std::to_string(fields_->number) + ", but " +
                             counted(section_.fields.size(), "field") + " in BEGIN_DATA_FORMAT",
                         "the number of fields that are there");
        }
        fields_.reset();
        section_.sets.clear();
        section_.offset = begun_at_;
        state_ = State::data;
    }

    void take_set(std::string_view line) {
        const CgatsValues values = values_of(file_, line, section_.fields.size());
        tabs_ = tabs_ || values.by_tabs;
        if (values.words.size() != section_.fields.size()) {
            file_.refuse(file_.offset_of(line),
                         counted(values.words.size(), "value") + " in this set, but " +
                             counted(section_.fields.size(), "field") + " in BEGIN_DATA_FORMAT",
                         "a value for each field, those with blanks in quotation marks");
        }
        section_.sets.push_back(line);
    }

    void end_data(const std::vector<CgatsWord>& words) {
        const CgatsWord& first = words.front();
        if (first.text != "END_DATA") refuse_open("BEGIN_DATA", "END_DATA");
        if (words.size() > 1) {
            file_.refuse(offset_of(words[1]), shown(words[1].text) + " behind END_DATA",
                         "a line of its own");
        }
        if (sets_ && sets_->number != section_.sets.size()) {
            file_.refuse(sets_->offset,
                         "NUMBER_OF_SETS " + std::to_string(sets_->number) + ", but " +
                             counted(section_.sets.size(), "set") + " before END_DATA",
                         "the number of sets that are there");
        }
        sets_.reset();
        if (section_.sets.empty()) {
            file_.refuse(section_.offset, "no set between BEGIN_DATA and END_DATA", "at least one");
        }
        result_.sections.push_back({section_.fields, std::move(section_.sets), section_.offset});
        section_.sets.clear();
        state_ = State::preamble;
    }

    const Original& file_;
    CgatsFile result_;
    CgatsSection section_;
    State state_ = State::preamble;
    std::size_t begun_at_ = 0;
    std::optional<Stated> fields_, sets_;
    bool tabs_ = false;
};

}  // namespace

std::optional<std::size_t> CgatsSection::field(std::string_view name) const {
    const auto found = std::find_if(fields.begin(), fields.end(),
                                    [&](const CgatsWord& field) { return field.text == name; });
    if (found == fields.end()) return std::nullopt;
    return static_cast<std::size_t>(found - fields.begin());
}

std::optional<std::size_t> CgatsSection::naming_field() const {
    const std::optional<std::size_t> name = field("SAMPLE_NAME");
    return name ? name : field("SAMPLE_ID");
}

bool is_spectral_field(std::string_view name) {
    return name == "SPECTRAL_NM" || name == "SPECTRAL_DEC" || name == "SPECTRAL_PCT";
}

CgatsFile cgats_file(const Original& file) { return CgatsReader(file).read(); }

void DecimalMark::look_at(std::string_view number) {
    if (!looks_numeric(number)) return;
    const Marks marks = marks_of(number);
    if (marks.points > 0 && point_.empty()) point_ = number;
    if (marks.commas > 0 && comma_.empty()) comma_ = number;
    decided_ = decided_ || (marks.commas > 0 && !marks.thousands);
}

char DecimalMark::mark() const {
    if (comma_.empty()) return '.';
    const std::size_t offset = file_.offset_of(comma_);
    if (!point_.empty()) {
        file_.refuse(offset, shown(comma_) + " here, but " + shown(point_) + " elsewhere",
                     "one decimal mark, and none between thousands");
    }
    if (!decided_) {
        file_.refuse(offset,
                     "the comma in " + shown(comma_) +
                         " may mark decimals or group thousands, and no other number tells",
                     "one decimal mark, and none between thousands");
    }
    return ',';
}

}  // namespace samelight::io::detail
