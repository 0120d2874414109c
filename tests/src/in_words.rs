//! Our scenarios in another language, as the page opens them.

use std::collections::BTreeMap;
use std::fs;

use anyhow::{Context, Result};
use serde_json::Value;

use crate::files::{ScenarioFile, scenario_folder, scenarios};

/// Fields that people read.
const READ: [&str; 4] = ["about", "housing_label", "label", "name"];

/// What stands in scenarios, by the English of it.
pub type InWords = BTreeMap<String, String>;

/// The words of a language.
///
/// # Errors
/// There is no such file, or it is none.
pub fn in_words(language: &str) -> Result<InWords> {
    let file = scenario_folder().join(format!("words/{language}.json"));
    let text =
        fs::read_to_string(&file).with_context(|| format!("cannot read {}", file.display()))?;
    Ok(serde_json::from_str(&text)?)
}

/// Every scenario in a language.
///
/// # Errors
/// A file cannot be read.
pub fn scenarios_in(language: &str) -> Result<Vec<ScenarioFile>> {
    let words = in_words(language)?;
    let mut all = scenarios()?;
    for file in &mut all {
        let mut data: Value = serde_json::from_str(&file.text)?;
        each_text(&mut data, &mut |text| {
            let own = words.get(&format!("{}/{text}", file.stem));
            if let Some(other) = own.or_else(|| words.get(text)) {
                other.clone_into(text);
            }
        });
        file.text = serde_json::to_string_pretty(&data)?;
    }
    Ok(all)
}

/// Calls back with every text of a scenario that people read.
pub fn each_text(value: &mut Value, seen: &mut impl FnMut(&mut String)) {
    match value {
        Value::Object(fields) => {
            for (name, value) in fields {
                match value {
                    Value::String(text) if READ.contains(&name.as_str()) => seen(text),
                    value => each_text(value, seen),
                }
            }
        }
        Value::Array(items) => items.iter_mut().for_each(|item| each_text(item, seen)),
        _ => {}
    }
}
