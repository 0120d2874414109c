"""A search for teeth in shards over a cluster of Dask (distributed), merged to the answer of one process.

python search.py TASK.json --scheduler ADDRESS --program SEARCH --out FINDS.jsonl [--shards 64] [--retries 3]

SEARCH is the command line of `core/examples/search`, under the same path on every worker. A shard whose worker is lost, or
whose run fails, is run again elsewhere; how many are done is told on the error output.
"""

import argparse
import pathlib
import subprocess
import sys
import tempfile

import dask
from distributed import Client, as_completed


def shard(program: str, task: str, which: int, count: int) -> tuple[int, str]:
    """Runs one shard, on a worker; what it has found, a line each."""
    with tempfile.TemporaryDirectory() as folder:
        place = pathlib.Path(folder)
        (place / "task.json").write_text(task, encoding="utf-8")
        out = place / "finds.jsonl"
        arguments = [program, place / "task.json", "--shard", f"{which}/{count}", "--threads", "1", "--out", out]
        done = subprocess.run(arguments, capture_output=True, text=True, encoding="utf-8", check=False)
        if done.returncode != 0:
            raise RuntimeError(f"shard {which}/{count}: {done.stderr.strip()}")
        return which, out.read_text(encoding="utf-8")


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("task", type=pathlib.Path)
    parser.add_argument("--scheduler", required=True)
    parser.add_argument("--program", required=True)
    parser.add_argument("--out", required=True)
    parser.add_argument("--shards", type=int, default=64)
    parser.add_argument("--retries", type=int, default=3)
    options = parser.parse_args()
    task = options.task.read_text(encoding="utf-8")
    count = options.shards
    # A lost worker counts against the shards that it had.
    dask.config.set({"distributed.scheduler.allowed-failures": options.retries})
    with Client(options.scheduler) as client, tempfile.TemporaryDirectory() as folder:
        futures = [
            client.submit(shard, options.program, task, which, count, pure=False, retries=options.retries)
            for which in range(1, count + 1)
        ]
        files = []
        for future in as_completed(futures):
            which, finds = future.result()
            file = pathlib.Path(folder) / f"{which}.jsonl"
            file.write_text(finds, encoding="utf-8")
            files.append(str(file))
            print(f"{len(files)} of {count} shards", file=sys.stderr, flush=True)
            future.release()
        merge = [options.program, options.task, "--merge", ",".join(files), "--out", options.out]
        subprocess.run(merge, check=True)


if __name__ == "__main__":
    main()
