//! Driving on the road: against SciPy, by hand, by closed forms, and its laws.

mod by_hand;
mod closed_forms;
mod data;
mod laws;
mod scipy;

use anyhow::Result;
use levertrain_core::Train;
use levertrain_core::traction::{Ask, Rule, Traction};
use serde_json::{Value, json};

/// Asked without losses, the converter open, shifts where forces cross.
pub fn ask() -> Ask {
    Ask {
        mesh_efficiency: 1.0,
        locked_from: None,
        rule: Rule::Force,
        targets: Vec::new(),
    }
}

/// What the core finds.
pub fn found(train: &Train, ask: Ask) -> Result<Traction> {
    let ask = ask
        .checked(train)
        .map_err(|problem| anyhow::anyhow!("{problem}"))?;
    Traction::of(train, &ask).map_err(|missing| anyhow::anyhow!("{missing:?}"))
}

/// A train of one set, 20 and 60 teeth: with the ring held it turns a fourth as fast, `one`; joined it turns as one,
/// `two`. Wheels of 0.3 m behind a final drive of 3, so that a newton at the wheels is 0.1 N·m at the output.
pub fn small(full: &[[f64; 2]], load: Value) -> Result<Train> {
    let ends = [full[0][0], full[full.len() - 1][0]];
    let scenario = json!({
        "format": 1, "name": "Small", "input": "s", "output": "c",
        "shafts": [{"id": "s", "label": "Sun"}, {"id": "c", "label": "Carrier"}, {"id": "r", "label": "Ring"}],
        "couplings": [{"kind": "planetary", "id": "p", "label": "Set",
            "sun": {"shaft": "s", "teeth": 20}, "ring": {"shaft": "r", "teeth": 60},
            "carrier": "c", "pinion": {"teeth": 20, "count": 4}}],
        "elements": [{"kind": "brake", "id": "V", "label": "Brake V", "shaft": "r"},
            {"kind": "clutch", "id": "H", "label": "Clutch H", "between": ["s", "r"]}],
        "ranges": [{"id": "one", "label": "1", "applied": ["V"]}, {"id": "two", "label": "2", "applied": ["H"]}],
        "engine": {"label": "Engine", "full": full, "motoring": [[ends[0], -200], [ends[1], -200]]},
        "load": load,
        "vehicle": {"wheel_radius": 0.3, "final_drive": 3},
        "dynamics": {"engine_inertia": 0.2, "load_inertia": 10,
            "shafts": [{"shaft": "s", "inertia": 0.05}, {"shaft": "c", "inertia": 0.5}, {"shaft": "r", "inertia": 0.02}]},
    });
    Train::parse(&scenario.to_string()).map_err(|problems| anyhow::anyhow!("{problems:?}"))
}
