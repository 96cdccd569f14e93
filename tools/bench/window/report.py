# SPDX-License-Identifier: MIT
# Copyright (c) 2026 the Beforehand developers
"""Plays a drill in a window on a screen in memory, and prints what its frames took."""
import os
import pathlib
import subprocess
import sys
import tempfile
import threading
import time


def most_memory(process, seen):
    """Follows the window's peak of memory, in kB, until it is gone."""
    while process.poll() is None:
        for pid in pathlib.Path("/proc").glob("[0-9]*"):
            try:
                if os.path.basename(os.readlink(pid / "exe")) != "bench_window":
                    continue
                lines = (pid / "status").read_text().splitlines()
            except OSError:
                continue  # gone meanwhile, or not ours
            seen += [int(line.split()[1]) for line in lines if line.startswith("VmHWM")]
        time.sleep(1)


def at(part, values):
    return sorted(values)[min(len(values) - 1, int(part * len(values)))]


def main():
    program, *arguments = sys.argv[1:]
    scenario, *size = arguments or ["class-ii-composite"]
    with tempfile.NamedTemporaryFile("r") as out:
        window = subprocess.Popen(["xvfb-run", "-a", "-s", "-screen 0 3840x2160x24 +extension GLX", program, scenario,
                                   out.name, *size], env={**os.environ, "LIBGL_ALWAYS_SOFTWARE": "1"})
        memory = []
        watcher = threading.Thread(target=most_memory, args=(window, memory))
        watcher.start()
        if window.wait() != 0:
            raise SystemExit("the window did not end well")
        watcher.join()
        first, *frames = out.read().splitlines()
    print(f"{scenario} at {' '.join(size) or '1280 720 1'}: first frame after {float(first.split()[1]):.0f} ms on the "
          f"clock, most memory {max(memory) / 1024:.0f} MB")
    print(f"{'screen':10}{'frames':>8}{'median':>9}{'99 %':>9}{'shapes':>9}{'99 %':>9}   ms of processor time")
    screens = {}
    for frame in frames:
        screen, whole, shapes = frame.split()
        screens.setdefault(screen, []).append((float(whole), float(shapes)))
    for screen, times in screens.items():
        whole, shapes = zip(*times)
        print(f"{screen:10}{len(times):8}{at(.5, whole):9.1f}{at(.99, whole):9.1f}{at(.5, shapes):9.2f}"
              f"{at(.99, shapes):9.2f}")


if __name__ == "__main__":
    main()
