//! Files of finds, a line each: those of shards begin with a line that says which shard it is.

use std::fs;
use std::io::{self, BufWriter, Write};
use std::path::Path;

use levertrain_core::Problem;
use levertrain_core::scenario::limits::FILE_BYTES;
use levertrain_core::search::limits::FINDS;
use levertrain_core::search::{ShardMark, ShardMerge};
use levertrain_core::words::said;

use crate::input;
use crate::standing::is_put_there;

/// The longest task: a train, and at most as much again of what is asked of it.
const TASK_BYTES: usize = 2 * FILE_BYTES;

pub fn read_task(file: &str) -> Result<String, String> {
    read(file, TASK_BYTES)
}

/// The longest file of a shard. As many finds as are kept, of six sets and with 32 ratios of the longest fractions, take
/// some 30 MB, usual ones of thousands of finds 3 MB, and a thousand layouts 5 MB. To merge the longest takes a second.
pub const SHARD_BYTES: usize = 30_000_000;
/// The longest line of one: a find of teeth has some kilobytes, and a layout those of a scenario file.
const LINE_BYTES: usize = FILE_BYTES;
/// Most lines after the first. No more finds are written than are kept; before that was so, files had some more.
const LINES: usize = 2 * FINDS;

/// Reads a file of at most so many bytes.
pub fn read(file: &str, most: usize) -> Result<String, String> {
    input::read(file, most).map_err(|problem| format!("{file}: {problem}"))
}

/// Goes through the finds of the files of all shards; what has become of all that they went through, and whether one of them
/// ended early.
pub fn merge(
    files: &[String],
    mut shards: ShardMerge,
    mut take: impl FnMut(&str) -> Option<()>,
) -> Result<(Vec<u128>, bool), String> {
    for file in files {
        let text = read(file, SHARD_BYTES)?;
        let mut lines = text.lines();
        // Too long a line is no mark either, and is told so.
        let mark = lines.next().filter(|line| line.len() <= LINE_BYTES);
        let mark = mark.unwrap_or_default();
        shards
            .take(mark)
            .map_err(|problem| told(file, &[problem]))?;
        if lines.clone().count() > LINES {
            let values = [("file", &**file), ("most", &LINES.to_string())];
            return Err(said("cli-search-lines", &values));
        }
        for (at, line) in lines.enumerate() {
            let taken = (line.len() <= LINE_BYTES).then(|| take(line)).flatten();
            taken.ok_or_else(|| {
                let number = (at + 2).to_string();
                said("cli-search-line", &[("file", &**file), ("line", &number)])
            })?;
        }
    }
    shards
        .whole()
        .map_err(|problem| told("--merge", &[problem]))
}

/// The first problem of a file, and how many more there are.
pub fn told(file: &str, problems: &[Problem]) -> String {
    let first = problems.first().map(Problem::on_a_terminal);
    let first = format!("{file}: {}", first.unwrap_or_default());
    match problems.len() {
        0 | 1 => first,
        count => {
            let more = (count - 1).to_string();
            said("cli-and-more", &[("first", &*first), ("more", &more)])
        }
    }
}

/// Writes finds to a file, which gets its name once it is complete, or to the output.
pub fn write(mark: Option<&ShardMark>, finds: &[String], out: Option<&Path>) -> Result<(), String> {
    let unwritten = |error: io::Error| said("cli-unwritten", &[("error", &error.to_string())]);
    let put = |writer: &mut dyn Write| {
        if let Some(mark) = mark {
            writeln!(writer, "{}", mark.line())?;
        }
        finds
            .iter()
            .try_for_each(|line| writeln!(writer, "{line}"))?;
        writer.flush()
    };
    let Some(file) = out else {
        return put(&mut io::stdout().lock()).map_err(unwritten);
    };
    let put_into = |file: &Path| put(&mut BufWriter::new(fs::File::create(file)?));
    if !is_put_there(file) {
        return put_into(file).map_err(unwritten);
    }
    let mut unfinished = file.as_os_str().to_owned();
    unfinished.push(".part");
    put_into(Path::new(&unfinished)).map_err(unwritten)?;
    fs::rename(&unfinished, file).map_err(unwritten)
}
