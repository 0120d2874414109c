//! The working behind a ratio as plain data: text for computer algebra, MathML for a page.

use serde::Serialize;

use crate::solve::Combination;
use crate::teach::working::{Expression, NoFormula, Working, Written};
use crate::train::Train;

/// The formula of a ratio and the speed equations it comes from.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "Working"))]
#[serde(rename_all = "camelCase")]
pub struct WorkingReport {
    /// The ratio in tooth symbols; `null` when there is none to give.
    pub ratio: Option<FormulaReport>,
    /// Why there is none to give: `no-ratio`, `only-these-teeth` or `too-long`.
    #[cfg_attr(
        feature = "types",
        ts(type = "\"no-ratio\" | \"only-these-teeth\" | \"too-long\" | null")
    )]
    pub no_formula: Option<&'static str>,
    /// The speed equation of each mesh row.
    pub equations: Vec<EquationReport>,
}

/// A formula in symbols and with its tooth counts put in.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "Formula"))]
#[serde(rename_all = "camelCase")]
pub struct FormulaReport {
    /// `1 + R1/S1`.
    pub symbols: String,
    /// `1 + 84/36`.
    pub numbers: String,
    /// The symbols as the inside of a MathML `math` element.
    pub symbols_mathml: String,
    /// The numbers likewise.
    pub numbers_mathml: String,
}

/// left = right.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
pub struct EquationReport {
    /// Id of the coupling.
    pub coupling: String,
    /// Left side.
    pub left: FormulaReport,
    /// Right side.
    pub right: FormulaReport,
}

impl From<&Expression> for FormulaReport {
    fn from(expression: &Expression) -> Self {
        Self {
            symbols: expression.text(Written::Symbols),
            numbers: expression.text(Written::Numbers),
            symbols_mathml: expression.mathml(Written::Symbols),
            numbers_mathml: expression.mathml(Written::Numbers),
        }
    }
}

impl WorkingReport {
    /// Works a combination out.
    pub fn of(combination: &Combination<'_>) -> Self {
        let Working { ratio, equations } = Working::of(combination);
        let train: &Train = combination.train();
        let equations = equations.iter().map(|equation| EquationReport {
            coupling: train.scenario().couplings[equation.coupling]
                .facts()
                .id()
                .to_owned(),
            left: (&equation.left).into(),
            right: (&equation.right).into(),
        });
        Self {
            ratio: ratio.as_ref().ok().map(FormulaReport::from),
            no_formula: ratio.err().map(NoFormula::key),
            equations: equations.collect(),
        }
    }
}
