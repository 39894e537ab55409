// Lines of a text and fields of a line, without copies. For the climate and exchange rooms.
#pragma once

#include <string_view>

namespace spadework::climate {

/// Lines one by one, with or without carriage returns and a byte order mark.
class CsvLines {
 public:
  explicit CsvLines(std::string_view text) : rest_(text) {
    if (rest_.substr(0, 3) == "\xEF\xBB\xBF") rest_.remove_prefix(3);
  }
  /// False at the end. The line comes without its end.
  bool next(std::string_view& line) {
    if (rest_.empty()) return false;
    const std::size_t end = rest_.find('\n');
    line = rest_.substr(0, end);
    rest_.remove_prefix(end == std::string_view::npos ? rest_.size() : end + 1);
    if (!line.empty() && line.back() == '\r') line.remove_suffix(1);
    ++number_;
    return true;
  }
  /// Of the line given last, from 1.
  [[nodiscard]] int number() const { return number_; }

 private:
  std::string_view rest_;
  int number_ = 0;
};

/// Fields one by one. A field in quotes comes without them and may hold the separator; quotes
/// doubled inside stay doubled.
class CsvRow {
 public:
  explicit CsvRow(std::string_view row, char separator = ',') : rest_(row), separator_(separator) {}
  /// False after the last.
  bool next(std::string_view& field) {
    if (ended_) return false;
    std::size_t from = 0;
    if (!rest_.empty() && rest_.front() == '"') {
      const std::size_t close = closing_quote();
      if (close != std::string_view::npos) {
        field = rest_.substr(1, close - 1);
        from = close + 1;
        leave(rest_.find(separator_, from));
        return true;
      }
    }
    const std::size_t end = rest_.find(separator_);
    field = rest_.substr(0, end);
    leave(end);
    return true;
  }
  /// Passes over that many fields; false if there are not so many with one after them.
  bool skip(int fields) {
    std::string_view field;
    for (int i = 0; i < fields; ++i) {
      if (!next(field)) return false;
    }
    return !ended_;
  }
  /// From the next field on.
  [[nodiscard]] std::string_view rest() const { return rest_; }

 private:
  [[nodiscard]] std::size_t closing_quote() const {
    std::size_t at = rest_.find('"', 1);
    while (at != std::string_view::npos && at + 1 < rest_.size() && rest_[at + 1] == '"')
      at = rest_.find('"', at + 2);
    return at;
  }
  void leave(std::size_t separator) {
    if (separator == std::string_view::npos) {
      rest_ = rest_.substr(rest_.size());
      ended_ = true;
    } else {
      rest_.remove_prefix(separator + 1);
    }
  }

  std::string_view rest_;
  char separator_;
  bool ended_ = false;
};

}  // namespace spadework::climate
