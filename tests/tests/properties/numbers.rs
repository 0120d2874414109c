//! The `f64` of an exact fraction is the nearest there is.

use levertrain_core::Fraction;
use levertrain_tests::generate::settings;
use num_bigint::BigInt;
use num_integer::Integer as _;
use proptest::prelude::*;

/// Decimals that tell a fraction apart from every point halfway between two `f64`: those are
/// multiples of 2^-1075.
const DECIMALS: u32 = 1080;

/// Another way to the nearest `f64`: the quotient's decimals, long enough for every tie, read by
/// the standard library.
fn by_decimals(num: &BigInt, den: &BigInt) -> Option<f64> {
    let scaled = num * BigInt::from(10).pow(DECIMALS);
    let (quotient, rest) = scaled.div_rem(den);
    // A further digit stands for all that is cut off.
    let beyond = u8::from(rest != BigInt::ZERO);
    let sign = if quotient == BigInt::ZERO && *num < BigInt::ZERO {
        "-"
    } else {
        ""
    };
    let text = format!("{sign}{quotient}{beyond}e-{}", DECIMALS + 1);
    text.parse().ok()
}

fn whole(bits: u32) -> impl Strategy<Value = BigInt> {
    let bytes = prop::collection::vec(any::<u8>(), 1..=(bits / 8) as usize);
    (any::<bool>(), bytes).prop_map(|(negative, bytes)| {
        let size = BigInt::from_bytes_le(num_bigint::Sign::Plus, &bytes);
        if negative { -size } else { size }
    })
}

/// A point halfway between two `f64`, or next to it, at any size.
fn tie() -> impl Strategy<Value = (BigInt, BigInt)> {
    let odd = (1_u64 << 53..1 << 54).prop_map(|value| value | 1);
    (odd, -1100_i32..1000, -1_i32..=1, 60_usize..200).prop_map(|(odd, power, beside, fine)| {
        let num = (BigInt::from(odd) << fine) + beside;
        let den = BigInt::from(1) << fine;
        match usize::try_from(power) {
            Ok(power) => (num << power, den),
            Err(_) => (num, den << power.unsigned_abs() as usize),
        }
    })
}

fn quotient() -> impl Strategy<Value = (BigInt, BigInt)> {
    prop_oneof![
        (any::<i64>(), any::<i64>()).prop_map(|(a, b)| (a.into(), b.into())),
        (whole(64), whole(64)),
        (whole(1400), whole(1400)),
        (whole(80), whole(1200)),
        tie(),
    ]
}

proptest! {
    #![proptest_config(settings(1000))]

    #[test]
    fn a_fraction_becomes_the_nearest_f64((num, den) in quotient()) {
        prop_assume!(den != BigInt::ZERO);
        let fraction = Fraction::from_big(num.clone(), den.clone());
        let found = fraction.map(|fraction| fraction.to_f64());
        let expected = by_decimals(&num, &den);
        // A minus zero is as near as zero.
        prop_assert_eq!(found, expected, "{} / {}", num, den);
    }
}
