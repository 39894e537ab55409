#include <fmt/format.h>

#include "exchange/exchange.h"
#include "exchange/file_text.h"
#include "exchange/readers.h"

namespace spadework::exchange {

Result<climate::Weather> read_weather(std::string_view bytes, std::string_view name) {
  if (auto error = not_a_text(bytes, name)) return tl::unexpected<Error>(std::move(*error));
  std::string_view start = bytes;
  if (start.substr(0, 3) == "\xEF\xBB\xBF") start.remove_prefix(3);
  const std::string first = lower(start.substr(0, 9));
  if (first.substr(0, 8) != "location") return read_daily_csv(bytes, name);
  if (first == "location;" || first == "location\t")
    return fail(ErrorCode::kSyntax, fmt::format("{}:1:9", name),
                "The fields of this hourly weather file are not separated by commas.",
                "Fetch the file again and do not save it from a spreadsheet.");
  return read_epw(bytes, name);
}

}  // namespace spadework::exchange
