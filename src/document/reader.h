// Reading a garden document: a Draft, and everything that is wrong with it.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "document/known_words.h"
#include "garden/entry.h"

namespace spadework::document {

struct ReadDocument {
  garden::Draft draft;
  std::vector<Error> problems;  // by line and column; none: the draft is fit to be resolved
};

/// In:     a document's text (UTF-8, with or without byte order mark, any line ends), its name as
///         messages say it, what the catalogue knows.
/// Out:    the draft with all that could be read, and every problem with its line, column and hint.
///         `where` is `file:line:column`, counted in characters from 1, at the key; for a key that
///         is missing, at its table.
/// Values: as garden/entry.h says. A day of any year is the text "MM-DD"; a key that takes one or
///         many holds a list either way; a compass word is its bearing; an amount is its text.
/// Errors: none; problems are told with the codes of exit status 1. After a syntax error, a limit
/// of
///         limits.h or a newer format nothing further is read, and the message says so.
[[nodiscard]] ReadDocument read_document(std::string_view text, std::string file,
                                         const KnownWords& known);

}  // namespace spadework::document
