//! The trains the solvers are timed on: every scenario of the project, and a synthetic one
//! that is as large as a chart of all combinations may be.

use std::fs;
use std::path::{Path, PathBuf};

use levertrain_core::{Problem, Train};
use serde_json::{Value, json};

/// A scenario file and the train it makes.
pub struct Example {
    /// The file's name without its extension.
    pub name: String,
    /// Its text.
    pub text: String,
    /// Its train.
    pub train: Train,
}

/// Reads every scenario without one-way clutches, in the order of their file names: the dense
/// baseline knows no complementarity.
///
/// # Errors
/// A file that cannot be read or is no scenario.
pub fn scenarios() -> Result<Vec<Example>, String> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../scenarios");
    let entries =
        fs::read_dir(&folder).map_err(|error| format!("{}: {error}", folder.display()))?;
    let mut paths: Vec<PathBuf> = entries
        .filter_map(|entry| Some(entry.ok()?.path()))
        .filter(|path| {
            path.extension()
                .is_some_and(|extension| extension == "json")
        })
        .filter(|path| is_scenario(path))
        .collect();
    paths.sort();
    let mut examples = paths
        .iter()
        .map(|path| read(path))
        .collect::<Result<Vec<_>, _>>()?;
    examples.retain(|example| example.train.one_ways().is_empty());
    Ok(examples)
}

/// Whether a JSON file of the folder is a scenario, not the schema or a list of them.
fn is_scenario(path: &Path) -> bool {
    let stem = path.file_stem().unwrap_or_default().to_string_lossy();
    stem != "index" && !stem.ends_with("schema")
}

fn read(path: &Path) -> Result<Example, String> {
    let text = fs::read_to_string(path).map_err(|error| format!("{}: {error}", path.display()))?;
    let train = Train::parse(&text)
        .map_err(|problems| format!("{}: {}", path.display(), lines(&problems)))?;
    let name = path.file_stem().unwrap_or_default();
    Ok(Example {
        name: name.to_string_lossy().into_owned(),
        text,
        train,
    })
}

/// Four sets in a row, each carrier driving the next ring, with 16 elements: every sun and
/// every ring can be held or joined to the input.
///
/// # Errors
/// None unless the format changes.
pub fn synthetic() -> Result<Train, String> {
    let rings = ["r1", "c1", "c2", "c3"];
    let carriers = ["c1", "c2", "c3", "out"];
    let suns = ["s1", "s2", "s3", "s4"];
    let teeth = [(31, 77, 23), (37, 83, 23), (29, 71, 21), (41, 97, 28)];

    let shaft = |id: &&str| json!({"id": id, "label": id});
    let shafts: Vec<Value> = ["in", "r1"]
        .iter()
        .chain(&carriers)
        .chain(&suns)
        .map(shaft)
        .collect();
    let couplings: Vec<Value> = (0..4)
        .map(|set| {
            let (sun, ring, pinion) = teeth[set];
            json!({
                "kind": "planetary", "id": format!("p{set}"), "label": format!("Set {set}"),
                "sun": {"shaft": suns[set], "teeth": sun},
                "ring": {"shaft": rings[set], "teeth": ring},
                "carrier": carriers[set],
                "pinion": {"teeth": pinion, "count": 3},
            })
        })
        .collect();
    let elements: Vec<Value> = suns
        .iter()
        .chain(&rings)
        .flat_map(|shaft| {
            let id = |letter: char| format!("{letter}{shaft}");
            [
                json!({"kind": "brake", "id": id('B'), "label": id('B'), "shaft": shaft}),
                json!({"kind": "clutch", "id": id('C'), "label": id('C'), "between": ["in", shaft]}),
            ]
        })
        .collect();
    let scenario = json!({
        "format": 1, "name": "Synthetic, 16 elements", "input": "in", "output": "out",
        "shafts": shafts, "couplings": couplings, "elements": elements, "ranges": [],
    });
    Train::parse(&scenario.to_string()).map_err(|problems| lines(&problems))
}

fn lines(problems: &[Problem]) -> String {
    let problems: Vec<String> = problems.iter().map(ToString::to_string).collect();
    problems.join("; ")
}
