// What is wrong with a document, collected while it is read and told all at once.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "garden/entry.h"

namespace spadework::document {

struct Problem {
  garden::TextPlace at;
  ErrorCode code = ErrorCode::kSyntax;
  std::string message, hint;
  std::string part;  // of the entry, as a JSON pointer: "/mix/1/share"
};

/// Whether `a` stands before `b` in the text.
[[nodiscard]] bool is_before(garden::TextPlace a, garden::TextPlace b);
/// Text of the user's, fit to stand in a message: one line, not too long.
[[nodiscard]] std::string quoted(std::string_view text);

class Problems {
 public:
  void tell(garden::TextPlace at, ErrorCode code, std::string message, std::string hint);
  /// The same, of a part of the entry.
  void tell_of(std::string part, garden::TextPlace at, ErrorCode code, std::string message,
               std::string hint);
  /// The value that is read now, as a JSON pointer within its entry.
  [[nodiscard]] const std::string& part() const { return part_; }
  [[nodiscard]] const std::vector<Problem>& all() const { return all_; }
  [[nodiscard]] bool none() const { return all_.empty(); }

  /// `did you mean "height_m"?`, or `otherwise` if no known word is near. Gives up looking when it
  /// has compared very many words, so that a document full of mistakes is still answered at once.
  [[nodiscard]] std::string hint_for(std::string_view typed, const std::vector<std::string>& known,
                                     std::string otherwise);

  /// By line and column, with `file:line:column`; beyond kMostProblems the last says how many more.
  [[nodiscard]] std::vector<Error> sorted(const std::string& file) const;

 private:
  friend class Within;
  std::string part_;
  std::vector<Problem> all_;
  std::size_t more_ = 0;
  std::size_t compared_ = 0;
};

/// While it lives, problems are told of that part of what is read.
class Within {
 public:
  Within(Problems& problems, std::string_view name) : problems_(problems) {
    size_ = problems.part_.size();
    problems.part_ += "/";
    problems.part_ += name;
  }
  Within(Problems& problems, std::size_t i) : Within(problems, std::to_string(i)) {}
  ~Within() { problems_.part_.resize(size_); }
  Within(const Within&) = delete;
  Within& operator=(const Within&) = delete;

 private:
  Problems& problems_;
  std::size_t size_;
};

/// "one of a, b, c, …": at most `most` words.
[[nodiscard]] std::string some_words(const std::vector<std::string>& words, std::size_t most = 12);

}  // namespace spadework::document
