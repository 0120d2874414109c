//! Formulas to be read: sums, products and quotients of tooth symbols, as text and as MathML.

/// A tooth count as a symbol.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Tooth {
    /// The letter, as `R`.
    pub letter: &'static str,
    /// Number of the set, from 1.
    pub set: usize,
    /// The count.
    pub value: u32,
}

/// A formula.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Expression {
    /// A whole number, 0 or more.
    Number(i64),
    /// A tooth count.
    Teeth(Tooth),
    /// The speed of a member.
    Speed {
        /// The member's letter.
        letter: &'static str,
        /// Number of the set, from 1.
        set: usize,
    },
    /// Terms with their signs: true where a term is subtracted.
    Sum(Vec<(bool, Self)>),
    /// Factors.
    Product(Vec<Self>),
    /// Numerator over denominator.
    Quotient(Box<Self>, Box<Self>),
}

/// Whether tooth counts are written as symbols or as numbers.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Written {
    /// `R1/S1`.
    Symbols,
    /// `84/36`.
    Numbers,
}

impl Expression {
    /// A product without its ones, nested products flattened.
    pub(super) fn product(factors: Vec<Self>) -> Self {
        let mut flat = Vec::new();
        for factor in factors {
            match factor {
                Self::Product(inner) => flat.extend(inner),
                Self::Number(1) => {}
                other => flat.push(other),
            }
        }
        match flat.len() {
            0 => Self::Number(1),
            1 => flat.remove(0),
            _ => Self::Product(flat),
        }
    }

    /// A quotient, or its numerator where the denominator is one.
    pub(super) fn quotient(numerator: Self, denominator: Self) -> Self {
        match denominator {
            Self::Number(1) => numerator,
            denominator => Self::Quotient(Box::new(numerator), Box::new(denominator)),
        }
    }

    /// How many tooth counts are written in it: what makes it long.
    pub(super) fn length(&self) -> usize {
        match self {
            Self::Number(_) | Self::Speed { .. } => 0,
            Self::Teeth(_) => 1,
            Self::Sum(terms) => terms.iter().map(|(_, term)| term.length()).sum(),
            Self::Product(factors) => factors.iter().map(Self::length).sum(),
            Self::Quotient(numerator, denominator) => numerator.length() + denominator.length(),
        }
    }

    /// As plain text that computer algebra reads: `1 + R1/S1`, `-(R1*S2)/(S1*R2)`.
    pub fn text(&self, written: Written) -> String {
        match self {
            Self::Number(number) => number.to_string(),
            Self::Teeth(Tooth { letter, set, value }) => match written {
                Written::Symbols => format!("{letter}{set}"),
                Written::Numbers => value.to_string(),
            },
            Self::Speed { letter, set } => format!("w_{letter}{set}"),
            Self::Sum(terms) => {
                let mut text = String::new();
                for (index, (negative, term)) in terms.iter().enumerate() {
                    text += match (index, negative) {
                        (0, false) => "",
                        (0, true) => "-",
                        (_, false) => " + ",
                        (_, true) => " - ",
                    };
                    text += &term.grouped(written, matches!(term, Self::Sum(_)));
                }
                text
            }
            Self::Product(factors) => {
                let sum = |factor: &Self| matches!(factor, Self::Sum(_));
                let parts = factors
                    .iter()
                    .map(|factor| factor.grouped(written, sum(factor)));
                parts.collect::<Vec<_>>().join("*")
            }
            Self::Quotient(numerator, denominator) => {
                let simple = |part: &Self| {
                    matches!(part, Self::Number(_) | Self::Teeth(_) | Self::Speed { .. })
                };
                let top = numerator.grouped(written, matches!(**numerator, Self::Sum(_)));
                format!(
                    "{top}/{}",
                    denominator.grouped(written, !simple(denominator))
                )
            }
        }
    }

    fn grouped(&self, written: Written, brackets: bool) -> String {
        if brackets {
            format!("({})", self.text(written))
        } else {
            self.text(written)
        }
    }

    /// As the inside of a MathML `math` element.
    pub fn mathml(&self, written: Written) -> String {
        match self {
            Self::Number(number) => format!("<mn>{number}</mn>"),
            Self::Teeth(Tooth { letter, set, value }) => match written {
                Written::Symbols => {
                    // Of two letters the second, which tells like gears of a set apart, is lowered.
                    let (first, rest) = letter.split_at(letter.len().min(1));
                    let lowered = match rest {
                        "" => format!("<mn>{set}</mn>"),
                        rest => format!("<mrow><mi>{rest}</mi><mn>{set}</mn></mrow>"),
                    };
                    format!("<msub><mi>{first}</mi>{lowered}</msub>")
                }
                Written::Numbers => format!("<mn>{value}</mn>"),
            },
            Self::Speed { letter, set } => {
                format!("<msub><mi>ω</mi><mrow><mi>{letter}</mi><mn>{set}</mn></mrow></msub>")
            }
            Self::Sum(terms) => {
                let mut inner = String::new();
                for (index, (negative, term)) in terms.iter().enumerate() {
                    inner += match (index, negative) {
                        (0, false) => "",
                        (_, true) => "<mo>−</mo>",
                        (_, false) => "<mo>+</mo>",
                    };
                    inner += &term.fenced(written);
                }
                format!("<mrow>{inner}</mrow>")
            }
            Self::Product(factors) => {
                // Numbers side by side would read as one number.
                let between = match written {
                    Written::Symbols => "<mo>&#x2062;</mo>",
                    Written::Numbers => "<mo>·</mo>",
                };
                let parts: Vec<String> = factors
                    .iter()
                    .map(|factor| factor.fenced(written))
                    .collect();
                format!("<mrow>{}</mrow>", parts.join(between))
            }
            Self::Quotient(numerator, denominator) => {
                format!(
                    "<mfrac>{}{}</mfrac>",
                    numerator.mathml(written),
                    denominator.mathml(written)
                )
            }
        }
    }

    /// With brackets around a sum.
    fn fenced(&self, written: Written) -> String {
        let inner = self.mathml(written);
        if matches!(self, Self::Sum(_)) {
            format!("<mrow><mo>(</mo>{inner}<mo>)</mo></mrow>")
        } else {
            inner
        }
    }
}
