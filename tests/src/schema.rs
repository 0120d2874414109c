//! The JSON Schema of scenario files, ready to judge.

use anyhow::{Context, Result, anyhow};
use jsonschema::Validator;
use serde_json::Value;

use crate::files;

/// The schema of `scenarios/`.
#[derive(Debug)]
pub struct Schema(Validator);

impl Schema {
    /// Reads it.
    ///
    /// # Errors
    /// There is none, or it is not a valid schema.
    pub fn read() -> Result<Self> {
        let file = files::schema()?;
        let place = file.path.display();
        let schema: Value =
            serde_json::from_str(&file.text).with_context(|| format!("{place} is not JSON"))?;
        jsonschema::meta::validate(&schema)
            .map_err(|error| anyhow!("{place} is not a schema: {error}"))?;
        let validator = jsonschema::validator_for(&schema)
            .map_err(|error| anyhow!("{place} is not a schema: {error}"))?;
        Ok(Self(validator))
    }

    /// What it finds wrong with a value, one line a problem.
    pub fn problems(&self, value: &Value) -> Vec<String> {
        let errors = self.0.iter_errors(value);
        errors
            .map(|error| format!("{}: {error}", error.instance_path()))
            .collect()
    }

    /// Whether it accepts a text; one that is not JSON it does not.
    pub fn accepts(&self, text: &str) -> bool {
        serde_json::from_str(text).is_ok_and(|value| self.0.is_valid(&value))
    }
}
