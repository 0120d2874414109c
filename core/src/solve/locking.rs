//! Which of a list of one-way clutches lock: an exact linear program over the motions left.
//!
//! Speeds per input turn are ω, a clutch's slip the way it lets happen is dᵢ(ω) ≥ 0, and it
//! passes a torque τᵢ ≥ 0 only where dᵢ = 0. By virtual work, with σ = 1 while the input drives
//! and −1 while it is driven, and T the torque from outside on the output,
//!
//! σ·ω(in) + T·ω(out) + Σ τᵢ·dᵢ(ω) = 0 in every motion ω.
//!
//! Divided by |T| these are the optimality conditions (Karush, Kuhn, Tucker) of the least or the
//! greatest output speed among the motions with one input turn and every dᵢ ≥ 0, whose value must
//! have the sign of σ for the least, and of −σ for the greatest: driving, an output turns as slowly
//! as its one-way clutches let it (derived). So no set of clutches has to be guessed. The program is solved by
//! the criss-cross method with the least index (T. Terlaky, Optimization 16, 1985, 683–690, from
//! memory), which needs no feasible start and ends at all numbers.
//!
//! Those that lock must leave no slip undecided and each pass some torque, so they are the
//! nonbasic variables of an optimal dictionary whose costs are all positive. Where more slips
//! are zero than needed, several dictionaries may be: clutches stand side by side. These are the
//! corners of the polyhedron of all τ that balance, visited along its edges, with its degenerate
//! corners parted by a symbolic perturbation that leaves the others where they are.
//!
//! Signs decide, and quotients within a column: so each column may be scaled, and is kept in whole
//! numbers without a common divisor. Fractions would be reduced one by one, which took four fifths of the time.

use levertrain_exact::{Fraction, Motions, Terms, crossed};
use num_bigint::{BigInt, Sign};

/// The rows of a dictionary: the input's speed, the output's, then the slips.
const INPUT: usize = 0;
const OUTPUT: usize = 1;
const FIRST_SLIP: usize = 2;

/// The sets of one-way clutches that can lock under torque, with all that stand side by side in
/// one set: one set a motion, as bits; at most one while the input drives, and two while it is
/// driven.
///
/// `slips` are the one-way clutches' slips, signed so that they let a positive one happen.
pub(super) fn locking_sets(
    motions: &Motions,
    input: usize,
    output: usize,
    slips: &[Terms],
    driving: bool,
) -> Vec<u32> {
    let mut rows = vec![vec![(input, 1)], vec![(output, 1)]];
    rows.extend_from_slice(slips);
    let Some(mut dictionary) = Dictionary::new(motions.values(&rows)) else {
        return Vec::new();
    };
    let mut found: Vec<Locking> = Vec::new();
    for cost in [1, -1] {
        if dictionary.optimize(cost) {
            let value = cost * dictionary.columns[0].sign(OUTPUT);
            if value == if driving { 1 } else { -1 } {
                found.extend(side_by_side(&dictionary, cost));
            }
        }
    }
    if let [one, other] = &found[..]
        && other.first < one.first
    {
        found.swap(0, 1);
    }
    found.into_iter().map(|locking| locking.all).collect()
}

/// Sets that lock with the same motion.
struct Locking {
    /// The one with the lowest bits.
    first: u32,
    /// All that are in any.
    all: u32,
}

/// Every row as a sum of some of them, the labels of the columns: the input's speed first, then
/// slips that are independent of it and of each other.
#[derive(Debug, Clone)]
struct Dictionary {
    columns: Vec<Column>,
}

#[derive(Debug, Clone)]
struct Column {
    /// The row that the column belongs to, whose own entry is positive.
    label: usize,
    /// What each row has of it, all in one measure of the column's own.
    entries: Vec<BigInt>,
}

impl Column {
    fn sign(&self, row: usize) -> i32 {
        match self.entries[row].sign() {
            Sign::Minus => -1,
            Sign::NoSign => 0,
            Sign::Plus => 1,
        }
    }
}

impl Dictionary {
    /// From the rows' values in each motion of a basis, which are whole numbers; `None` where the input
    /// cannot turn, or the output turns whatever locks.
    fn new(basis: Vec<Vec<Fraction>>) -> Option<Self> {
        const NONE: usize = usize::MAX;
        let rows = basis.first()?.len();
        let columns = basis.iter().map(|values| Column {
            label: NONE,
            entries: values.iter().map(Fraction::numerator).collect(),
        });
        let mut dictionary = Self {
            columns: columns.collect(),
        };
        for row in (0..rows).filter(|&row| row != OUTPUT) {
            let new = |column: &Column| column.label == NONE && column.sign(row) != 0;
            if let Some(column) = dictionary.columns.iter().position(new) {
                dictionary.pivot(row, column);
                if row == INPUT {
                    dictionary.columns.swap(0, column);
                }
            }
        }
        let (labelled, others): (Vec<Column>, _) = dictionary
            .columns
            .into_iter()
            .partition(|column| column.label != NONE);
        let turns = labelled.first()?.label == INPUT;
        let decided = others.iter().all(|column| column.sign(OUTPUT) == 0);
        (turns && decided).then_some(Self { columns: labelled })
    }

    /// Makes `row` the label of `column`.
    fn pivot(&mut self, row: usize, column: usize) {
        let mut pivot = self.columns.swap_remove(column);
        if pivot.sign(row) < 0 {
            let turned = &BigInt::from(-1);
            pivot.entries = crossed((turned, &pivot.entries), (&BigInt::ZERO, &pivot.entries));
        }
        pivot.label = row;
        let own = &pivot.entries[row];
        for other in self.columns.iter_mut().filter(|other| other.sign(row) != 0) {
            let factor = &other.entries[row];
            other.entries = crossed((own, &other.entries), (factor, &pivot.entries));
        }
        self.columns.push(pivot);
        let last = self.columns.len() - 1;
        self.columns.swap(column, last);
    }

    fn rows(&self) -> usize {
        self.columns[0].entries.len()
    }

    /// The column of a row that has one.
    fn column_of(&self, row: usize) -> Option<usize> {
        self.columns.iter().position(|column| column.label == row)
    }

    /// Finds the least output speed, or with `cost` −1 the greatest; whether there is one.
    fn optimize(&mut self, cost: i32) -> bool {
        while let Some(row) = (FIRST_SLIP..self.rows()).find(|&row| self.is_wrong(row, cost)) {
            let place = match self.column_of(row) {
                // More of this slip would be better, as far as another stays positive.
                Some(column) => {
                    let falls = |&other: &usize| {
                        self.columns[column].sign(other) < 0 && self.column_of(other).is_none()
                    };
                    let other = (FIRST_SLIP..self.rows()).find(falls);
                    other.map(|other| (other, column))
                }
                // This slip is negative; more of another mends it.
                None => {
                    let columns = 1..self.columns.len();
                    let helps = columns.filter(|&x| self.columns[x].sign(row) > 0);
                    let column = helps.min_by_key(|&x| self.columns[x].label);
                    column.map(|column| (row, column))
                }
            };
            let Some((row, column)) = place else {
                return false;
            };
            self.pivot(row, column);
        }
        true
    }

    fn is_wrong(&self, row: usize, cost: i32) -> bool {
        let number = match self.column_of(row) {
            Some(column) => cost * self.columns[column].sign(OUTPUT),
            None => self.columns[0].sign(row),
        };
        number < 0
    }

    /// The slips that are kept at zero, as bits.
    fn locked(&self) -> u32 {
        let slips = self.columns.iter().skip(1);
        slips.fold(0, |all, column| all | 1 << (column.label - FIRST_SLIP))
    }

    /// Whether each of them passes a torque.
    fn all_carry(&self, cost: i32) -> bool {
        let mut slips = self.columns.iter().skip(1);
        slips.all(|column| cost * column.sign(OUTPUT) > 0)
    }
}

/// The sets that lock in the motion of an optimal dictionary.
fn side_by_side(optimal: &Dictionary, cost: i32) -> Option<Locking> {
    let rows = optimal.rows();
    let tight: Vec<usize> = (FIRST_SLIP..rows)
        .filter(|&row| optimal.columns[0].sign(row) == 0)
        .collect();
    // One more cost for the slip of each of these columns, negligible beside the one before.
    let costs = &optimal.columns[1..];
    let mut known = vec![optimal.locked()];
    let mut open = vec![optimal.clone()];
    let mut found: Option<Locking> = None;
    while let Some(dictionary) = open.pop() {
        if dictionary.all_carry(cost) {
            let locked = dictionary.locked();
            let locking = found.get_or_insert(Locking {
                first: locked,
                all: 0,
            });
            locking.first = locking.first.min(locked);
            locking.all |= locked;
        }
        let locked = dictionary.locked();
        for &row in &tight {
            let bit = 1 << (row - FIRST_SLIP);
            if locked & bit != 0 {
                continue;
            }
            let Some(column) = relieved(&dictionary, row, cost, costs) else {
                continue;
            };
            let left = 1 << (dictionary.columns[column].label - FIRST_SLIP);
            let next = locked & !left | bit;
            if !known.contains(&next) {
                known.push(next);
                let mut dictionary = dictionary.clone();
                dictionary.pivot(row, column);
                open.push(dictionary);
            }
        }
    }
    found
}

/// The column whose torque ends first as the clutch of `row` takes more and more.
fn relieved(dictionary: &Dictionary, row: usize, cost: i32, costs: &[Column]) -> Option<usize> {
    let columns = &dictionary.columns;
    let order = |a: usize, b: usize, cost_row: usize| {
        let [a, b] = [a, b].map(|column| &columns[column].entries);
        (&a[cost_row] * &b[row]).cmp(&(&b[cost_row] * &a[row]))
    };
    let relieves = (1..columns.len()).filter(|&column| columns[column].sign(row) > 0);
    relieves.min_by(|&a, &b| {
        let first = order(a, b, OUTPUT);
        let first = if cost < 0 { first.reverse() } else { first };
        costs.iter().fold(first, |known, column| {
            known.then_with(|| order(a, b, column.label))
        })
    })
}
