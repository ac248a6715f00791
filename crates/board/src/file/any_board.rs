//! Boards of any numbers: each member of its own making, or that of a rich board with numbers of its own.

use geometry::{Pattern, PocketShape};
use proptest::prelude::*;
use serde_json::Value;

use crate::{
    Board, Bore, Bores, Bottom, Build, Center, Change, Coat, CoatKind, Edit, Filling, FlawKind,
    FlawShape, Grooves, Marking, Mix, MixedBy, Panel, Paper, Pocket, Recess, RecessShape, Rings,
    Router, ScrewCircle, Stock, StockFlaw, StockOutline, Template, Tenons, Units, read_board,
};

/// The rich boards of the whole program's tests: every member of the document is in some.
pub fn rich_boards() -> Vec<Board> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../tests/fixtures/rich");
    let mut paths: Vec<_> = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .collect();
    paths.sort();
    let read = |path| read_board(&std::fs::read(path).unwrap()).unwrap();
    paths.into_iter().map(read).collect()
}

/// Any board: some members as [`made`], the others from rich boards, their lengths a little shorter.
pub fn boards() -> impl Strategy<Value = Board> {
    let rich: Vec<Value> = rich_boards().iter().map(value_of).collect();
    let members = rich[0].as_object().unwrap().len();
    let taken = prop::option::of((prop::sample::select(rich), 0.99..1.0_f64));
    let taken = prop::collection::vec(taken, members);
    (made(), taken).prop_map(|(made, taken)| {
        let mut board = value_of(&made);
        let members = board.as_object_mut().unwrap();
        for ((name, member), taken) in members.iter_mut().zip(taken) {
            if let Some((mut rich, shorter)) = taken {
                *member = rich[name].take();
                shorten(member, shorter);
            }
        }
        serde_json::from_value(board).unwrap()
    })
}

pub fn value_of(board: &Board) -> Value {
    serde_json::to_value(board).unwrap()
}

/// Shortens every number that is no count.
fn shorten(value: &mut Value, by: f64) {
    match value {
        Value::Object(members) => members.values_mut().for_each(|value| shorten(value, by)),
        Value::Array(items) => items.iter_mut().for_each(|value| shorten(value, by)),
        Value::Number(number) if number.is_f64() => {
            *value = (number.as_f64().unwrap() * by).into();
        }
        _ => {}
    }
}

fn patterns() -> impl Strategy<Value = Pattern> {
    prop_oneof![
        Just(Pattern::Ring),
        (0.0..0.35).prop_map(|depth| Pattern::Lobes { depth }),
        Just(Pattern::Polygon),
        (3_u32..9).prop_map(|across| Pattern::Arms { across }),
    ]
}

fn bores() -> impl Strategy<Value = Bore> {
    let bottom = prop::sample::select(&Bottom::ALL[..]);
    (0.1..500.0_f64, 0.0..500.0_f64, bottom).prop_map(|(diameter, depth, bottom)| Bore {
        diameter,
        depth,
        bottom,
    })
}

fn centers() -> impl Strategy<Value = Center> {
    let size = 0.1..100.0_f64;
    prop_oneof![
        Just(Center::Nothing),
        (size.clone(), size.clone())
            .prop_map(|(diameter, depth)| Center::Pivot { diameter, depth }),
        (bores(), size).prop_map(|(bore, pilot)| Center::Hole { bore, pilot }),
    ]
}

fn edits() -> impl Strategy<Value = Vec<Edit>> {
    let offset = || -5000.0..5000.0_f64;
    let change = prop_oneof![
        (offset(), offset()).prop_map(|(u, v)| Change::Move { u, v }),
        Just(Change::Drop),
        bores().prop_map(|bore| Change::Bore { bore }),
        (offset(), offset(), bores()).prop_map(|(u, v, bore)| Change::Add { u, v, bore }),
    ];
    let hole = prop::sample::select(vec!["T2-7", "H1-1", "S6-4", "X1-12", "C"]);
    let edit = (hole, any::<bool>(), change).prop_map(|(hole, mirrored, change)| Edit {
        hole: hole.parse().unwrap(),
        mirrored,
        change,
    });
    prop::collection::vec(edit, 0..4)
}

fn pockets() -> impl Strategy<Value = Pocket> {
    let shapes = [
        PocketShape::Row,
        PocketShape::Arc,
        PocketShape::Block,
        PocketShape::Ring,
    ];
    let place = (
        prop::option::of(-180.0..180.0_f64),
        prop::option::of(0.0..900.0_f64),
    );
    (prop::sample::select(shapes.to_vec()), place).prop_map(|(shape, (bearing, radius))| Pocket {
        shape,
        bearing,
        radius,
    })
}

fn templates() -> impl Strategy<Value = Template> {
    let side = || 30.0..5000.0_f64;
    let paper = prop_oneof![
        prop::sample::select(vec![
            Paper::A4,
            Paper::A3,
            Paper::Letter,
            Paper::Legal,
            Paper::Tabloid
        ]),
        (side(), side()).prop_map(|(width, height)| Paper::Custom { width, height }),
    ];
    let marking = prop::sample::select(&Marking::ALL[..]);
    (paper, marking, any::<bool>()).prop_map(|(paper, marking, names)| Template {
        paper,
        marking,
        names,
        ..Template::default()
    })
}

fn stocks() -> impl Strategy<Value = Stock> {
    let place = || -20_000.0..20_000.0_f64;
    let corners = || prop::collection::vec([place(), place()], 0..9);
    let edge = || prop::collection::vec(0.0..500.0_f64, 0..6);
    let outline = prop_oneof![
        Just(StockOutline::Unknown),
        (1.0..20_000.0_f64, 1.0..20_000.0_f64, edge(), edge()).prop_map(
            |(length, width, lower, upper)| StockOutline::Slab {
                length,
                width,
                lower,
                upper
            }
        ),
        corners().prop_map(|corners| StockOutline::Corners { corners }),
    ];
    let shape = prop_oneof![
        (place(), place(), 0.1..5000.0_f64).prop_map(|(x, y, diameter)| FlawShape::Round {
            x,
            y,
            diameter
        }),
        corners().prop_map(|corners| FlawShape::Area { corners }),
    ];
    let kind = prop::sample::select(&FlawKind::ALL[..]);
    let flaw = (kind, shape).prop_map(|(kind, shape)| StockFlaw { kind, shape });
    let flaws = prop::collection::vec(flaw, 0..4);
    let middle = prop::option::of([place(), place()]);
    (outline, flaws, middle).prop_map(|(outline, flaws, place)| Stock {
        outline,
        flaws,
        place,
        ..Stock::default()
    })
}

fn panels() -> impl Strategy<Value = Panel> {
    let build = prop_oneof![
        Just(Build::Whole),
        Just(Build::Halves),
        (2_u32..=60).prop_map(|count| Build::Strips { count }),
        prop::collection::vec(-2500.0..2500.0_f64, 0..5).prop_map(|at| Build::Seams { at }),
    ];
    let tenons = prop::option::of(Just(Tenons::default()));
    (build, tenons).prop_map(|(build, tenons)| Panel {
        build,
        tenons,
        ..Panel::default()
    })
}

fn recesses() -> impl Strategy<Value = Recess> {
    let side = || 1.0..5000.0_f64;
    let shape = prop_oneof![
        side().prop_map(|diameter| RecessShape::Round { diameter }),
        (side(), side(), 0.0..2500.0_f64).prop_map(|(length, width, corner)| {
            RecessShape::Straight {
                length,
                width,
                corner,
            }
        }),
    ];
    let place = || -2500.0..2500.0_f64;
    let deep = || 0.0..500.0_f64;
    (shape, [place(), place()], deep(), deep(), 0_u32..=1000).prop_map(
        |(shape, at, depth, lid, spare)| Recess {
            shape,
            at,
            depth,
            lid,
            spare,
            ..Recess::default()
        },
    )
}

fn fillings() -> impl Strategy<Value = Filling> {
    let long = || 0.1..100_000.0_f64;
    let warm = || -40.0..80.0_f64;
    let poured = (
        [0.0..20.0_f64, 0.0..2.0, 0.0..1000.0],
        any::<bool>(),
        mixes(),
        1..50_u32,
    );
    (poured, [long(), long(), long()], [warm(), warm()]).prop_map(
        |((poured, around_insert, mix, boards), [batch, pot_life, ten_bores], warm)| Filling {
            below_top: poured[2] / 2.0,
            dome: poured[0],
            around_insert,
            waste: poured[1],
            cup: poured[2],
            batch,
            mix,
            boards,
            pot_life,
            pot_life_at: warm[0],
            shop: warm[1],
            mixing: poured[2],
            ten_bores,
        },
    )
}

fn mixes() -> impl Strategy<Value = Mix> {
    let by = prop::sample::select(&MixedBy::ALL[..]);
    let part = || 0.01..1000.0_f64;
    (by, part(), part(), 0.5..5.0_f64).prop_map(|(by, resin, hardener, density)| Mix {
        by,
        resin,
        hardener,
        density,
    })
}

fn finishes() -> impl Strategy<Value = Vec<Coat>> {
    let kind = prop::sample::select(&CoatKind::ALL[..]);
    let coat = (kind, 0.0..100_000.0_f64).prop_map(|(kind, dries)| Coat { kind, dries });
    prop::collection::vec(coat, 0..6)
}

fn all_grooves() -> impl Strategy<Value = Grooves> {
    let beside = || prop::option::of(0.0..500.0_f64);
    let bit = (0.1..50.0_f64, 10.0..170.0_f64, 0.0..50.0_f64);
    let gaps = [beside(), beside(), beside(), beside(), beside()];
    (bit, any::<bool>(), gaps).prop_map(|((width, angle, tip), track, gaps)| Grooves {
        width,
        angle,
        tip,
        track,
        around_home: gaps[0],
        around_start: gaps[1],
        rings: gaps[2].map(|gap| Rings {
            gap,
            start: track,
            ..Rings::default()
        }),
        sectors_from: gaps[3],
        rim: gaps[4],
        ..Grooves::default()
    })
}

fn made() -> impl Strategy<Value = Board> {
    let counts = (1_u32..=24, 1_u32..=400, 0_u32..=60, 0_u32..=60);
    let wood = (centers(), [bores(), bores(), bores()], 0.1..1000.0_f64);
    let glue = (
        stocks(),
        panels(),
        prop::collection::vec(Just(ScrewCircle::default()), 0..3),
        prop::option::of(Just(Router::default())),
    );
    let bench = (
        prop::option::of(recesses()),
        prop::option::of(fillings()),
        finishes(),
        prop::option::of(all_grooves()),
    );
    let looks = (".{0,12}", any::<bool>(), templates(), edits());
    (patterns(), pockets(), counts, wood, (glue, bench), looks).prop_map(
        |(pattern, pocket, counts, wood, (glue, bench), looks)| {
            let (recess, filling, finish, grooves) = bench;
            let (stock, panel, screws, router) = glue;
            let (center, [track, home, start], pitch) = wood;
            let (title, inches, template, edits) = looks;
            Board {
                title,
                units: if inches { Units::Inch } else { Units::Mm },
                players: counts.0,
                spaces: counts.1,
                home: counts.2,
                start: counts.3,
                pattern,
                pitch,
                pocket,
                center,
                bores: Bores {
                    track,
                    home,
                    start,
                    ..Board::default().bores
                },
                stock,
                panel,
                screws,
                recess,
                filling,
                finish,
                grooves,
                router,
                template,
                edits,
                ..Board::default()
            }
        },
    )
}
