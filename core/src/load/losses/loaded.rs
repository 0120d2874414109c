//! What carries torque in a combination, decided exactly.

use levertrain_exact::{Fraction, Terms};

use super::LossModel;
use super::ways::{Row, Way};
use crate::solve::Combination;
use crate::solve::torque::Balance;
use crate::train::{Body, Train, speed_terms};

/// The mesh rows, elements and shafts that carry torque.
pub(super) struct Loaded<'a> {
    train: &'a Train,
    /// The efficiency of so many meshes in series.
    in_series: Vec<f64>,
    pub(super) rows: Vec<Row<'a>>,
    pub(super) ways: Vec<Way>,
    /// The ways in which something turns: a bit each.
    pub(super) moving: u64,
    /// The applied elements among them.
    pub(super) applied: Vec<usize>,
    /// Of each shaft, whether it is among them.
    pub(super) shafts: Vec<bool>,
    /// What must be able to stand still for all this to be so.
    carried: Vec<Terms>,
}

impl<'a> Loaded<'a> {
    /// Nothing yet.
    pub(super) fn new(train: &'a Train, model: &LossModel) -> Self {
        let couplings = 0..train.scenario().couplings.len();
        let most = couplings.map(|coupling| train.gearing(coupling).meshes());
        let series = 0..=most.max().unwrap_or(0);
        Self {
            train,
            in_series: series
                .map(|meshes| model.mesh_efficiency.powi(meshes as i32))
                .collect(),
            rows: Vec::new(),
            ways: Vec::new(),
            moving: 0,
            applied: Vec::new(),
            shafts: Vec::new(),
            carried: Vec::new(),
        }
    }

    /// Takes in what carries torque in a combination that drives; `None` where equilibrium does not
    /// determine all of it, or a set that carries torque rolls at a speed that is not determined.
    pub(super) fn read(&mut self, combination: &Combination<'_>) -> Option<()> {
        let train = self.train;
        self.rows.clear();
        self.ways.clear();
        self.moving = 0;
        self.applied.clear();
        self.carried.clear();
        self.shafts.clear();
        self.shafts.resize(train.scenario().shafts.len(), false);
        let ideal = Ideal::of(combination);
        let mut first_row = 0;
        for coupling in 0..train.scenario().couplings.len() {
            self.add_coupling(combination, coupling, &|row| ideal.is_idle(first_row + row))?;
            first_row += train.gearing(coupling).mesh_rows.len();
        }
        if !self.carried.is_empty() && !combination.turns_with(&self.carried) {
            return None;
        }
        for element in combination.applied().iter() {
            let ends = train.ends(element);
            let floats = |&body: &Body| !combination.determines(body);
            // Between shafts that float and carry nothing it is as good as open.
            if ideal.is_slack(element)? && ends.iter().any(floats) {
                continue;
            }
            ends.into_iter().for_each(|body| self.load(body));
            self.applied.push(element);
        }
        self.load(Body::Shaft(train.input()));
        self.load(Body::Shaft(train.output()));
        Some(())
    }

    /// Takes in the rows of a coupling that carry torque; `is_idle` tells of each whether it
    /// carries none, if that is determined.
    fn add_coupling(
        &mut self,
        combination: &Combination<'_>,
        coupling: usize,
        is_idle: &dyn Fn(usize) -> Option<bool>,
    ) -> Option<()> {
        let train = self.train;
        let (gearing, bodies) = (train.gearing(coupling), train.members(coupling));
        let mut shared = None;
        let mut first_mesh = 0;
        let rows = gearing.mesh_rows.iter().zip(&gearing.rolling);
        for (index, (factors, rolling)) in rows.enumerate() {
            let own_mesh = first_mesh;
            first_mesh += rolling.meshes.len();
            let is_idle = is_idle(index)?;
            let mut members = factors.iter().zip(bodies);
            if members.any(|(&factor, &body)| factor != 0 && !combination.determines(body)) {
                if is_idle {
                    continue;
                }
                return None;
            }
            let three = [rolling.from, rolling.to, rolling.carrier].map(|member| bodies[member]);
            let [from, _, carrier] = three;
            let speed = combination
                .speed_seen_from(carrier, from)
                .unwrap_or_else(|| {
                    // A carrier that floats has the factor 0: it takes no torque, and any loss would
                    // turn it until nothing rolls. So it is carried along.
                    self.carried.push(speed_terms([(from, 1), (carrier, -1)]));
                    0.0
                });
            for (member, (&factor, &body)) in factors.iter().zip(bodies).enumerate() {
                // Where it rolls, a loss may give the carrier torque that its factor does not.
                if factor != 0 || (member == rolling.carrier && speed != 0.0) {
                    self.load(body);
                }
            }
            if shared.is_none() && gearing.shared_meshes > 0 {
                // The rows of a coupling stand still together: they share member b.
                shared = Some(self.add_way(coupling, gearing.shared_meshes, speed));
            }
            let own = self.add_way(coupling, rolling.meshes.len(), speed);
            self.rows.push(Row {
                bodies: three,
                factors: (factors[rolling.from] as f64, factors[rolling.to] as f64),
                speed,
                ways: (own, shared),
                first_mesh: own_mesh,
                rolling,
            });
        }
        Some(())
    }

    fn add_way(&mut self, coupling: usize, meshes: usize, speed: f64) -> usize {
        let (way, still) = (self.ways.len(), speed == 0.0);
        let basic = self.in_series[meshes];
        self.ways.push(Way::of(coupling, meshes, basic, still));
        self.moving |= u64::from(!still) << way;
        way
    }

    fn load(&mut self, body: Body) {
        if let Body::Shaft(shaft) = body {
            self.shafts[shaft] = true;
        }
    }
}

/// The exact torques without losses, as far as they have to be asked.
enum Ideal {
    /// Everything turns at a speed that is known, so that it does not matter what carries none.
    AllTurn,
    /// Something floats, or more is applied than needed.
    Solved(Balance),
}

impl Ideal {
    /// With one motion left and as many equations as it takes to leave one, these are independent;
    /// the output's torque is independent of them, since it does work: its speed is not zero. So
    /// every torque is determined, and need not be solved for to know it.
    fn of(combination: &Combination<'_>) -> Self {
        let train = combination.train();
        let scenario = train.scenario();
        let couplings = 0..scenario.couplings.len();
        let mesh_rows: usize = couplings
            .map(|coupling| train.gearing(coupling).mesh_rows.len())
            .sum();
        let equations = mesh_rows + combination.applied().iter().count();
        if combination.degrees_of_freedom() == 1 && equations + 1 == scenario.shafts.len() {
            Self::AllTurn
        } else {
            Self::Solved(Balance::of(combination))
        }
    }

    /// Whether a mesh row, counted through all couplings, carries nothing; `None` where that is
    /// not determined.
    fn is_idle(&self, row: usize) -> Option<bool> {
        self.is_zero(|balance| balance.row(row))
    }

    /// The same of an applied element.
    fn is_slack(&self, element: usize) -> Option<bool> {
        self.is_zero(|balance| balance.element(element))
    }

    fn is_zero(&self, torque: impl FnOnce(&Balance) -> Option<Fraction>) -> Option<bool> {
        match self {
            Self::AllTurn => Some(false),
            Self::Solved(balance) => Some(torque(balance)?.is_zero()),
        }
    }
}
