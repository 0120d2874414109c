//! Headings and elapsed times for a run of several steps.

use std::time::{Duration, Instant};

use anyhow::{Context, Result};

/// Counts and announces the steps of one command.
pub struct Steps {
    total: usize,
    begun: usize,
}

impl Steps {
    /// For a run of `total` steps.
    pub fn new(total: usize) -> Self {
        Self { total, begun: 0 }
    }

    /// Announces a step, does it and says how long it took.
    ///
    /// # Errors
    /// Whatever the step fails with, named after the step.
    pub fn run<T>(&mut self, name: &str, step: impl FnOnce() -> Result<T>) -> Result<T> {
        let started = Instant::now();
        let value = self.run_quietly(name, step)?;
        println!("    {name}: done in {}", seconds(started.elapsed()));
        Ok(value)
    }

    /// As [`Steps::run`], but leaves the last word to the step itself.
    ///
    /// # Errors
    /// As [`Steps::run`].
    pub fn run_quietly<T>(&mut self, name: &str, step: impl FnOnce() -> Result<T>) -> Result<T> {
        self.begun += 1;
        println!("\n[{}/{}] {name}", self.begun, self.total);
        step().with_context(|| format!("step {} of {} ({name})", self.begun, self.total))
    }

    /// As [`Steps::run`]; a step that fails is left out, with the tests that need it, and says why.
    pub fn attempt<T>(&mut self, name: &str, step: impl FnOnce() -> Result<T>) -> Option<T> {
        self.run(name, step)
            .inspect_err(|error| println!("    SKIPPED, with the tests that need it: {error:#}"))
            .ok()
    }

    /// Announces a step that is left out, and why.
    pub fn skip(&mut self, name: &str, reason: &str) {
        self.begun += 1;
        println!(
            "\n[{}/{}] {name}: SKIPPED, {reason}",
            self.begun, self.total
        );
    }
}

fn seconds(elapsed: Duration) -> String {
    format!("{:.1} s", elapsed.as_secs_f64())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_failing_step_is_named_with_its_number() {
        let mut steps = Steps::new(2);
        assert!(steps.run("first", || Ok(())).is_ok());
        let failed: Result<()> = steps.run("second", || anyhow::bail!("no"));
        let message = failed.map_err(|error| format!("{error:#}"));
        assert_eq!(message, Err("step 2 of 2 (second): no".into()));
    }

    #[test]
    fn a_step_that_may_fail_counts_all_the_same() {
        let mut steps = Steps::new(3);
        assert_eq!(steps.attempt("first", || Ok(1)), Some(1));
        let failed: Option<u8> = steps.attempt("second", || anyhow::bail!("no"));
        assert_eq!(failed, None);
        assert_eq!(steps.begun, 2);
    }
}
