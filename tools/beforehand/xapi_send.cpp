// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "xapi_send.hpp"

#include <curl/curl.h>
#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <memory>
#include <nlohmann/json.hpp>

#include "commands.hpp"

namespace beforehand::command {
namespace {

using nlohmann::json;

constexpr std::size_t at_once = 100;
constexpr long patience_s = 60, patience_to_connect_s = 10;

struct CurlGone {
  void operator()(CURL* c) const { curl_easy_cleanup(c); }
  void operator()(curl_slist* l) const { curl_slist_free_all(l); }
  void operator()(CURLU* u) const { curl_url_cleanup(u); }
};

std::string part_of(CURLU* url, CURLUPart part) {
  char* text = nullptr;
  if (curl_url_get(url, part, &text, 0) != CURLUE_OK) return {};
  std::string copy = text;
  curl_free(text);
  return copy;
}

// Names and results do not travel in the open: plain http stays on this machine.
void check_address(const std::string& address) {
  const std::unique_ptr<CURLU, CurlGone> url(curl_url());
  if (curl_url_set(url.get(), CURLUPART_URL, address.c_str(), 0) != CURLUE_OK)
    throw Failure(wrong_usage, address + " is no address");
  const auto scheme = part_of(url.get(), CURLUPART_SCHEME);
  const auto host = part_of(url.get(), CURLUPART_HOST);
  const bool here = host == "127.0.0.1" || host == "[::1]" || host == "localhost";
  if (scheme == "https" || (scheme == "http" && here)) return;
  throw Failure(wrong_usage,
                address + ": records go over https only (http to this machine itself)");
}

std::size_t take_answer(char* data, std::size_t, std::size_t count, void* into) {
  auto& text = *static_cast<std::string*>(into);
  text.append(data, std::min(count, std::size_t{500} - std::min<std::size_t>(500, text.size())));
  return count;
}

class Sender {
 public:
  explicit Sender(const std::string& address) : curl_(curl_easy_init()) {
    auto resource = address;
    while (resource.ends_with('/')) resource.pop_back();
    resource += "/statements";
    for (const auto* header :
         {"Content-Type: application/json", "X-Experience-API-Version: 1.0.3", "Expect:"})
      headers_.reset(curl_slist_append(headers_.release(), header));
    auto* c = curl_.get();
    curl_easy_setopt(c, CURLOPT_URL, resource.c_str());
    curl_easy_setopt(c, CURLOPT_HTTPHEADER, headers_.get());
    curl_easy_setopt(c, CURLOPT_FOLLOWLOCATION, 0L);  // nobody is led elsewhere
    curl_easy_setopt(c, CURLOPT_CONNECTTIMEOUT, patience_to_connect_s);
    curl_easy_setopt(c, CURLOPT_TIMEOUT, patience_s);
    curl_easy_setopt(c, CURLOPT_NOSIGNAL, 1L);
    curl_easy_setopt(c, CURLOPT_WRITEFUNCTION, take_answer);
    if (const char* login = std::getenv("BEFOREHAND_XAPI_LOGIN")) {
      curl_easy_setopt(c, CURLOPT_HTTPAUTH, CURLAUTH_BASIC);
      curl_easy_setopt(c, CURLOPT_USERPWD, login);
    }
  }

  /// Empty when they were taken, else why not.
  std::string send(const std::string& body) {
    std::string answer;
    auto* c = curl_.get();
    curl_easy_setopt(c, CURLOPT_WRITEDATA, &answer);
    curl_easy_setopt(c, CURLOPT_POSTFIELDSIZE_LARGE, static_cast<curl_off_t>(body.size()));
    curl_easy_setopt(c, CURLOPT_POSTFIELDS, body.c_str());
    if (const auto failed = curl_easy_perform(c); failed != CURLE_OK)
      return curl_easy_strerror(failed);
    long status = 0;
    curl_easy_getinfo(c, CURLINFO_RESPONSE_CODE, &status);
    return status == 200 || status == 204 ? "" : fmt::format("it said {} {}", status, answer);
  }

 private:
  std::unique_ptr<CURL, CurlGone> curl_;
  std::unique_ptr<curl_slist, CurlGone> headers_;
};

}  // namespace

std::size_t send_statements(const std::string& statements, const std::string& address) {
  check_address(address);
  const auto all = json::parse(statements);
  Sender sender(address);
  for (std::size_t from = 0; from < all.size(); from += at_once) {
    const auto to = std::min(from + at_once, all.size());
    const json batch = json::array_t(all.begin() + static_cast<std::ptrdiff_t>(from),
                                     all.begin() + static_cast<std::ptrdiff_t>(to));
    if (const auto why = sender.send(batch.dump()); !why.empty())
      throw Failure(environment_at_fault,
                    fmt::format("{} took {} of {} statements: {}. Sending again doubles nothing",
                                address, from, all.size(), why));
  }
  return all.size();
}

}  // namespace beforehand::command
