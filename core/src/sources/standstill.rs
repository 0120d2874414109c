//! At which ratio of output to input speed a port stands still.

use levertrain_exact::Fraction;

use super::data::{Ports, Role};
use super::speeds::Speeds;
use crate::base::element_set::ElementSet;
use crate::train::Train;

/// A ratio at which a port stands still. Where that is a motor's, no power flows through it: all of the input's goes
/// through gears (a mechanical point, or node).
#[derive(Debug, Clone, PartialEq)]
pub struct Standstill {
    /// The place of the port in the list.
    pub port: usize,
    /// Output speed over input speed.
    pub ratio: Fraction,
}

/// The ratios at which ports other than input and output stand still, in the order of the ports; none
/// where input and output do not decide all speeds with nothing to spare.
///
/// With ω = a·ω(input) + b·ω(output), the port stands still at ω(output)/ω(input) = −a/b.
pub fn standstills(train: &Train, applied: ElementSet, ports: &Ports) -> Vec<Standstill> {
    let speeds = Speeds::of(train, applied, &[train.input(), train.output()]);
    if speeds.freedom() != 2 || speeds.given().len() != 2 {
        return Vec::new();
    }
    let list = ports.list.iter().enumerate();
    list.filter(|(_, port)| !matches!(port.role, Role::Input | Role::Output))
        .filter_map(|(index, port)| {
            let [input, output] = speeds.shaft(port.shaft)? else {
                return None;
            };
            // One that turns with the output alone stands still only with it.
            let ratio = (-input).over(output)?;
            (!ratio.is_zero()).then_some(Standstill { port: index, ratio })
        })
        .collect()
}
