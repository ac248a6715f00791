//! Random wishes are either met, or refused with offers that work.

use super::*;

fn wishes() -> impl Strategy<Value = Wishes> {
    use prop::option::of;
    let pattern = prop_oneof![
        Just(Pattern::Ring),
        (0.0..0.35_f64).prop_map(|depth| Pattern::Lobes { depth }),
        Just(Pattern::Polygon),
        (1_u32..4).prop_map(|half| Pattern::Arms {
            across: 2 * half + 1
        }),
    ];
    let counts = (of(1_u32..10), of(2_u32..26), of(0_u32..8), of(0_u32..8));
    let lengths = (
        of(4.0..40.0_f64),
        of(60.0..900.0_f64),
        of(2.0..25.0_f64),
        of(2.0..30.0_f64),
    );
    let center = prop::sample::select(Center::KINDS);
    let kind = prop::sample::select(PieceKind::ALL.to_vec());
    let units = prop_oneof![Just(Units::Mm), Just(Units::INCH)];
    let others = (
        of(pattern),
        of(center),
        of(kind),
        of(-360.0..360.0_f64),
        of(units),
    );
    (counts, lengths, others).prop_map(|(counts, lengths, others)| Wishes {
        title: None,
        units: others.4,
        players: counts.0,
        pattern: others.0,
        spaces: counts.1,
        home: counts.2,
        start: counts.3,
        center: others.1,
        pitch: lengths.0,
        diameter: lengths.1,
        bore: lengths.2,
        rotation: others.3,
        piece: others.2,
        piece_diameter: lengths.3,
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    #[test]
    fn wishes_give_a_board_without_a_stop_or_working_offers(wishes in wishes()) {
        match propose(&wishes) {
            Ok(board) => {
                prop_assert!(!stops(Workpiece::of(&board).unwrap().findings()));
                for wish in Wish::ALL {
                    let asked = wishes.number(wish);
                    prop_assert!(asked.is_none_or(|asked| asked == nearest::value(&board, wish)));
                }
                prop_assert_eq!(board.pattern, wishes.pattern.unwrap_or(Pattern::Ring));
                // Where no rotation is asked for, half a sector may move a joint of the template off a row of holes.
                let half = 180.0 / f64::from(board.players);
                let is_free = wishes.rotation.is_none() && board.rotation == half;
                prop_assert!(is_free || board.rotation == wishes.rotation.unwrap_or(0.0));
                prop_assert_eq!(board.units, wishes.units.unwrap_or_default());
                prop_assert_eq!(board.piece.kind, wishes.piece.unwrap_or(PieceKind::Marble));
            }
            Err(ProposeError::Refused(refusal)) => hold(&wishes, &refusal),
            Err(ProposeError::Build(fault)) => {
                let said = fault.to_string();
                prop_assert!(said.contains(", not ") || said.contains("; use "), "{}", said);
            }
        }
    }
}
