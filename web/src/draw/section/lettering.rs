//! How large the letters of a half-section are. A type of its own for each kind, so that the engine which a page
//! opens with carries nothing of what only large letters take.

/// How a half-section is lettered.
pub trait Lettering: Copy {
    /// How many times as large as usual.
    fn times(self) -> f64;
    /// Whether they are larger than usual.
    fn is_large(self) -> bool;
    /// Whether clutches and brakes are called by a letter of their own.
    fn is_short(self) -> bool;
    /// Whether speeds are asked for, so that a mark stands for them.
    fn asks(self) -> bool;
    /// How far the names of the first and the last set stand inwards of these, in CSS pixels, so that the
    /// speeds of the ends have room.
    fn gives_way(self) -> f64;

    /// How much more room there is above and below.
    fn beyond(self) -> (f64, f64) {
        let more = self.times() - 1.0;
        (16.0 * more, 18.0 * more)
    }
}

/// As on the page.
#[derive(Debug, Clone, Copy)]
pub struct Usual;

// Inline: the engine that a page opens with keeps nothing of what only larger letters need.
impl Lettering for Usual {
    #[inline(always)]
    fn times(self) -> f64 {
        1.0
    }

    #[inline(always)]
    fn is_large(self) -> bool {
        false
    }

    #[inline(always)]
    fn is_short(self) -> bool {
        false
    }

    #[inline(always)]
    fn asks(self) -> bool {
        false
    }

    #[inline(always)]
    fn gives_way(self) -> f64 {
        0.0
    }
}

/// For the back row of a class.
#[derive(Debug, Clone, Copy)]
pub struct Large {
    /// How many times as large as usual, at least 1.
    pub times: f64,
    /// Whether clutches and brakes are called by a letter of their own.
    pub short: bool,
    /// Whether speeds are asked for.
    pub asks: bool,
    /// How far the names of the outer sets give way to the speeds of the ends.
    pub gives_way: f64,
}

impl Lettering for Large {
    fn times(self) -> f64 {
        self.times
    }

    fn is_large(self) -> bool {
        true
    }

    fn is_short(self) -> bool {
        self.short
    }

    fn asks(self) -> bool {
        self.asks
    }

    fn gives_way(self) -> f64 {
        self.gives_way
    }
}
