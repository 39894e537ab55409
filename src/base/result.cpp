#include "base/result.h"

#include "base/check.h"

namespace spadework {
namespace {

struct CodeRow {
  ErrorCode code;
  std::string_view name;
  std::string_view meaning;
  int exit_status;
};

constexpr CodeRow kCodes[] = {
    {ErrorCode::kSyntax, "syntax", "The TOML itself cannot be read from here on.", 1},
    {ErrorCode::kUnknownKey, "unknown_key", "This table has no such key.", 1},
    {ErrorCode::kWrongType, "wrong_type", "Another sort of value belongs here.", 1},
    {ErrorCode::kWrongUnit, "wrong_unit", "This unit does not measure what is asked for.", 1},
    {ErrorCode::kMissingKey, "missing_key", "A key that is needed is not there.", 1},
    {ErrorCode::kRepeatedId, "repeated_id", "Two things have the same id.", 1},
    {ErrorCode::kBadId, "bad_id", "An id is short and lower case: a-z, 0-9 and -.", 1},
    {ErrorCode::kUnknownId, "unknown_id", "Nothing has this id.", 1},
    {ErrorCode::kUnknownKind, "unknown_kind", "The catalogue has nothing of this name.", 1},
    {ErrorCode::kImpossibleValue, "impossible_value", "The figure cannot be.", 1},
    {ErrorCode::kCrossedOutline, "crossed_outline", "The outline crosses itself.", 1},
    {ErrorCode::kConflict, "conflict", "Two keys that say different things.", 1},
    {ErrorCode::kTooLarge, "too_large", "The document goes beyond the stated limits.", 1},
    {ErrorCode::kWrongUse, "wrong_use", "The command was not called as it can be.", 2},
    {ErrorCode::kCannotRead, "cannot_read", "A file could not be read.", 3},
    {ErrorCode::kCannotWrite, "cannot_write", "A file could not be written.", 3},
    {ErrorCode::kReadOnly, "read_only", "A file that may only be read was to be changed.", 3},
    {ErrorCode::kNewerFile, "newer_file", "A newer Spadework wrote this file.", 3},
    {ErrorCode::kStale, "stale", "The garden was changed elsewhere meanwhile.", 3},
    {ErrorCode::kNoAnswer, "no_answer", "The question has no answer for this garden.", 4},
};

const CodeRow& row_of(ErrorCode code) {
  for (const CodeRow& row : kCodes) {
    if (row.code == code) return row;
  }
  SW_CHECK_EQ(static_cast<int>(code), -1);
  return kCodes[0];
}

}  // namespace

std::string_view code_name(ErrorCode code) { return row_of(code).name; }
std::string_view code_meaning(ErrorCode code) { return row_of(code).meaning; }
int exit_status(ErrorCode code) { return row_of(code).exit_status; }

const std::vector<ErrorCode>& all_error_codes() {
  static const std::vector<ErrorCode> codes = [] {
    std::vector<ErrorCode> out;
    for (const CodeRow& row : kCodes) out.push_back(row.code);
    return out;
  }();
  return codes;
}

}  // namespace spadework
