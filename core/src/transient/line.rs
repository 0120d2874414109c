//! What changes evenly with time, and courses made of such pieces.

/// A value now, and how fast it changes: at + slope·τ.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Line {
    /// Now.
    pub at: f64,
    /// Per second.
    pub slope: f64,
}

impl Line {
    /// What stays as it is.
    pub const fn level(at: f64) -> Self {
        Self { at, slope: 0.0 }
    }

    /// The value `later` seconds from now.
    pub fn after(self, later: f64) -> f64 {
        self.at + self.slope * later
    }

    /// So many times it.
    pub fn times(self, factor: f64) -> Self {
        Self {
            at: self.at * factor,
            slope: self.slope * factor,
        }
    }

    /// Both together.
    pub fn plus(self, other: Self) -> Self {
        Self {
            at: self.at + other.at,
            slope: self.slope + other.slope,
        }
    }

    /// Itself with what is nearer to zero than roundings taken as zero.
    pub fn cleared(self, least: Self) -> Self {
        let clear = |value: f64, least: f64| if value.abs() <= least { 0.0 } else { value };
        Self {
            at: clear(self.at, least.at),
            slope: clear(self.slope, least.slope),
        }
    }

    /// Which is larger just after now: values first, and where these are the same, slopes.
    pub fn order(self, other: Self) -> std::cmp::Ordering {
        // Adding zero makes one of both zeros.
        let values = (self.at + 0.0).total_cmp(&(other.at + 0.0));
        values.then_with(|| (self.slope + 0.0).total_cmp(&(other.slope + 0.0)))
    }

    /// Itself without what takes it below zero just after now.
    pub(super) fn at_least_zero(self) -> Self {
        let at = self.at.max(0.0);
        let slope = match at == 0.0 {
            true => self.slope.max(0.0),
            false => self.slope,
        };
        Self { at, slope }
    }

    /// Whether it is below zero just after now.
    pub fn is_negative(self) -> bool {
        self.at < 0.0 || (self.at == 0.0 && self.slope < 0.0)
    }

    /// Whether it is above zero just after now.
    pub fn is_positive(self) -> bool {
        self.at > 0.0 || (self.at == 0.0 && self.slope > 0.0)
    }
}

/// What is linear in time between knots, and level before the first and after the last. Two knots at one
/// time are a jump.
#[derive(Debug, Clone, PartialEq)]
pub struct Course(Vec<[f64; 2]>);

impl Course {
    /// Through knots of time and value, whose times do not fall; at least one.
    pub(super) fn through(knots: Vec<[f64; 2]>) -> Self {
        debug_assert!(!knots.is_empty());
        Self(knots)
    }

    /// What stays as it is.
    pub(super) fn level(value: f64) -> Self {
        Self(vec![[0.0, value]])
    }

    /// Its knots.
    pub fn knots(&self) -> &[[f64; 2]] {
        &self.0
    }

    /// How it goes on from a time.
    pub fn from(&self, time: f64) -> Line {
        let next = self.0.partition_point(|&[at, _]| at <= time);
        match (next.checked_sub(1), self.0.get(next)) {
            (Some(last), None) => Line::level(self.0[last][1]),
            (None, Some(&[_, first])) => Line::level(first),
            (Some(last), Some(&[end, after])) => {
                let [begin, before] = self.0[last];
                let slope = (after - before) / (end - begin);
                Line {
                    at: before + slope * (time - begin),
                    slope,
                }
            }
            (None, None) => Line::default(),
        }
    }

    /// The largest size of all its values.
    pub(super) fn largest(&self) -> f64 {
        let sizes = self.0.iter().map(|[_, value]| value.abs());
        sizes.fold(0.0, f64::max)
    }

    /// The time of the next knot.
    pub(super) fn next_knot(&self, time: f64) -> Option<f64> {
        let next = self.0.partition_point(|&[at, _]| at <= time);
        self.0.get(next).map(|&[at, _]| at)
    }
}
