// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "process.hpp"

#include <fcntl.h>
#include <poll.h>
#include <pty.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <stdexcept>

namespace beforehand {

namespace {

struct Ends {
  int read = -1, write = -1;
};

Ends open_pipe() {
  int ends[2];
  if (pipe2(ends, O_CLOEXEC) != 0) throw std::runtime_error("no pipe");
  return {ends[0], ends[1]};
}

Ends open_terminal() {
  int ours = -1, theirs = -1;
  if (openpty(&ours, &theirs, nullptr, nullptr, nullptr) != 0)
    throw std::runtime_error("no terminal");
  fcntl(ours, F_SETFD, FD_CLOEXEC);
  fcntl(theirs, F_SETFD, FD_CLOEXEC);
  return {ours, theirs};
}

[[noreturn]] void become(const std::vector<std::string>& arguments, const std::string& folder,
                         int in, int out, int err) {
  std::vector<char*> words{const_cast<char*>(PROGRAM)};
  for (const auto& a : arguments) words.push_back(const_cast<char*>(a.c_str()));
  words.push_back(nullptr);
  if (!folder.empty() && chdir(folder.c_str()) != 0) _exit(126);
  dup2(in >= 0 ? in : open("/dev/null", O_RDONLY), STDIN_FILENO);
  dup2(out, STDOUT_FILENO);
  dup2(err, STDERR_FILENO);
  alarm(120);
  execv(PROGRAM, words.data());
  _exit(127);
}

// False at the end; a terminal whose other side is gone gives an error instead of an end.
bool take_in(int from, std::string& into) {
  char buffer[4096];
  const auto count = read(from, buffer, sizeof buffer);
  if (count > 0) into.append(buffer, static_cast<std::size_t>(count));
  return count > 0;
}

}  // namespace

Outcome run(const std::vector<std::string>& arguments, const Setting& setting) {
  const auto out = open_pipe(), err = setting.terminal ? open_terminal() : open_pipe();
  const auto in = setting.typed.empty() ? Ends{} : open_terminal();
  if (in.read >= 0 && write(in.read, setting.typed.data(), setting.typed.size()) < 0)
    throw std::runtime_error("nothing can be typed");
  const auto child = fork();
  if (child == 0) become(arguments, setting.folder, in.write, out.write, err.write);
  if (in.write >= 0) close(in.write);
  close(out.write);
  close(err.write);
  Outcome outcome;
  bool interrupted = setting.interrupt_at.empty();
  pollfd watched[] = {{out.read, POLLIN, 0}, {err.read, POLLIN, 0}};
  while ((watched[0].fd >= 0 || watched[1].fd >= 0) && poll(watched, 2, -1) > 0) {
    if (watched[0].revents != 0 && !take_in(out.read, outcome.out)) watched[0].fd = -1;
    if (watched[1].revents != 0 && !take_in(err.read, outcome.err)) watched[1].fd = -1;
    if (interrupted || outcome.err.find(setting.interrupt_at) == std::string::npos) continue;
    interrupted = true;
    kill(child, SIGINT);
  }
  close(out.read);
  close(err.read);
  if (in.read >= 0) close(in.read);
  int status = 0;
  waitpid(child, &status, 0);
  if (WIFEXITED(status)) outcome.code = WEXITSTATUS(status);
  return outcome;
}

}  // namespace beforehand
