//! Values that glide to where they belong, and can change their mind on the way.

/// A list of values on their way to a target.
#[derive(Debug, Clone, PartialEq)]
pub struct Glide {
    from: Vec<f64>,
    to: Vec<f64>,
    /// 0 at the start, 1 on arrival.
    progress: f64,
}

/// How long a glide takes, in seconds.
const SECONDS: f64 = 0.2;

impl Glide {
    /// At rest at `values`.
    pub fn at(values: Vec<f64>) -> Self {
        Self {
            from: values.clone(),
            to: values,
            progress: 1.0,
        }
    }

    /// Sets off for `target` from wherever the values are now.
    pub fn go_to(&mut self, target: Vec<f64>) {
        if target != self.to {
            self.from = self.shown();
            self.to = target;
            self.progress = 0.0;
        }
    }

    /// Sets off for where the values belong from these instead; those of nothing are there already.
    pub fn set_off_from(&mut self, from: Vec<Option<f64>>) {
        let values = from.into_iter().zip(&self.to);
        self.from = values.map(|(from, to)| from.unwrap_or(*to)).collect();
        self.progress = 0.0;
    }

    /// Arrives at once.
    pub fn arrive(&mut self) {
        self.progress = 1.0;
    }

    /// Lets `seconds` pass; whether anything still moves.
    pub fn advance(&mut self, seconds: f64) -> bool {
        self.progress = (self.progress + seconds / SECONDS).min(1.0);
        self.progress < 1.0
    }

    /// The values now: eased out, so that the answer is nearly there at once.
    pub fn shown(&self) -> Vec<f64> {
        let eased = 1.0 - (1.0 - self.progress).powi(3);
        self.from
            .iter()
            .zip(&self.to)
            .map(|(from, to)| from + (to - from) * eased)
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_glide_arrives_and_can_be_interrupted_without_a_jump() {
        let mut glide = Glide::at(vec![0.0]);
        glide.go_to(vec![1.0]);
        assert!(glide.advance(SECONDS / 2.0));
        let half = glide.shown();
        assert!(half[0] > 0.5 && half[0] < 1.0);
        glide.go_to(vec![-1.0]);
        assert_eq!(glide.shown(), half);
        assert!(!glide.advance(SECONDS));
        assert_eq!(glide.shown(), [-1.0]);
    }
}
