#include "server/guard.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace spadework::server {
namespace {

std::array<std::string, 3> own_hosts(int port) {
  return {fmt::format("127.0.0.1:{}", port), fmt::format("localhost:{}", port),
          fmt::format("[::1]:{}", port)};
}

}  // namespace

std::optional<std::string> refusal(const Asker& asker, int port) {
  const auto hosts = own_hosts(port);
  if (std::find(hosts.begin(), hosts.end(), asker.host) == hosts.end())
    return "This address is not Spadework’s own.";
  const auto is_own = [&](const std::string& host) { return asker.origin == "http://" + host; };
  if (!asker.origin.empty() && std::none_of(hosts.begin(), hosts.end(), is_own))
    return "Another page may not ask Spadework.";
  if (!asker.fetch_site.empty() && asker.fetch_site != "same-origin" && asker.fetch_site != "none")
    return "Another page may not ask Spadework.";
  if (asker.method == "GET" || asker.method == "HEAD") return std::nullopt;
  if (asker.own_header != "1") return "Changes are taken from Spadework’s own page alone.";
  return std::nullopt;
}

}  // namespace spadework::server
