// Errors are values: what went wrong, where, and what would be right. One list of codes feeds the
// exit status of the command, the HTTP status of the server and the documentation.
#pragma once

#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <vector>

namespace spadework {

enum class ErrorCode {
  // the document (exit 1)
  kSyntax,           // the TOML itself cannot be read
  kUnknownKey,       // a key that this table does not have
  kWrongType,        // text where a number is wanted, …
  kWrongUnit,        // a unit that does not measure this
  kMissingKey,       // a key that is needed
  kRepeatedId,       // two things of one name
  kBadId,            // an id that is not short, lower case, a-z 0-9 -
  kUnknownId,        // a name that nothing has
  kUnknownKind,      // a kind, crop, material that the catalogue does not have
  kImpossibleValue,  // a figure outside what can be
  kCrossedOutline,   // an outline that crosses itself
  kConflict,         // two keys that cannot both be given
  kTooLarge,         // beyond the stated limits
  // the user's words (exit 2)
  kWrongUse,
  // files (exit 3)
  kCannotRead,
  kCannotWrite,
  kReadOnly,   // may be read, not written
  kNewerFile,  // a newer program wrote it
  kStale,      // someone else was quicker
  // no answer exists (exit 4)
  kNoAnswer,
};

/// The code's name as `--json` prints it: `unknown_key`, …
[[nodiscard]] std::string_view code_name(ErrorCode code);
/// Every code, in the order above.
[[nodiscard]] const std::vector<ErrorCode>& all_error_codes();
/// One sentence on what the code means, for the documentation.
[[nodiscard]] std::string_view code_meaning(ErrorCode code);
/// The exit status of the command: 1 document, 2 use, 3 files, 4 no answer.
[[nodiscard]] int exit_status(ErrorCode code);

struct Error {
  ErrorCode code = ErrorCode::kNoAnswer;
  std::string where;      // `garden.toml:41:7`, a JSON pointer, or empty
  std::string message;    // what is wrong, in the user's words
  std::string hint;       // what would be right
  std::string part = {};  // which value of an entry, as a JSON pointer: `/mix/1/share`; or empty
};

template <class T>
using Result = tl::expected<T, Error>;

[[nodiscard]] inline tl::unexpected<Error> fail(ErrorCode code, std::string where,
                                                std::string message, std::string hint = {}) {
  return tl::unexpected<Error>(Error{code, std::move(where), std::move(message), std::move(hint)});
}

}  // namespace spadework
