// Who may ask: this machine's own browser, at this program's own address, for this program's own
// page. For the server room alone.
#pragma once

#include <optional>
#include <string>

namespace spadework::server {

/// What of a request tells who asks; empty: the header is not there.
struct Asker {
  std::string method;  // GET, POST, …
  std::string host, origin, fetch_site;
  std::string content_type;
  std::string own_header;  // X-Spadework
};

/// Why a request is refused, or nothing. A page of another site can neither read (its Host or its
/// Origin is another) nor write (it cannot send our own header without being asked for leave, which
/// it never gets).
[[nodiscard]] std::optional<std::string> refusal(const Asker& asker, int port);

}  // namespace spadework::server
