// The weather file that a garden's document names, for the study of the garden.
#pragma once

#include <optional>
#include <string>

#include "study/study.h"

namespace spadework::exchange {

/// Reads a weather file and gives it to a study, with what makes one doubt that it belongs to the
/// garden.
/// In:     the file's bytes and its name; the units of the doubts, if not the document's own.
/// Errors: those of `read_weather`; the study is left as it was.
[[nodiscard]] Result<bool> give_weather(study::Study& study, std::string_view bytes,
                                        const std::string& name,
                                        std::optional<Units> units = std::nullopt);

/// The same for a garden that keeps its files with it and opens without them too: where the file is
/// not there or cannot be read, the stations around stand in, and a finding says why. A document
/// that names none has none.
/// In:     `bytes`: the file, or why it cannot be had (kUnknownId: it is not there).
/// Out:    what is wrong with it; nothing: all is well.
std::optional<Error> give_kept_weather(study::Study& study, const Result<std::string>& bytes,
                                       std::optional<Units> units = std::nullopt);

}  // namespace spadework::exchange
