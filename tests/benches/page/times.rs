//! Durations, and what can be said of many.

use anyhow::{Context, Result};

/// Durations, of which at least one is there.
pub struct Times {
    sorted: Vec<f64>,
}

impl Times {
    pub fn new(mut times: Vec<f64>) -> Option<Self> {
        times.sort_by(f64::total_cmp);
        (!times.is_empty()).then_some(Self { sorted: times })
    }

    /// How many there are.
    pub fn count(&self) -> usize {
        self.sorted.len()
    }

    /// The duration that this share of all does not exceed.
    pub fn share(&self, share: f64) -> f64 {
        let last = self.sorted.len() - 1;
        self.sorted[(share * last as f64).round() as usize]
    }
}

/// The duration that half of all do not exceed.
///
/// # Errors
/// There is none.
pub fn median(times: Vec<f64>) -> Result<f64> {
    let times = Times::new(times).context("nothing was timed")?;
    Ok(times.share(0.5))
}
