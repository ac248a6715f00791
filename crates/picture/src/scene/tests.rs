//! A board is the same for every player: rotated by 360/N, the colors of one player become those of the next.

use super::*;
use board::{Grooves, Hue, Rgb};

/// A board with colored rings and grooves, in players' colors or in one.
fn colored(players: u32, hue: Hue) -> (Workpiece, Scene) {
    let mut board = Board {
        players,
        grooves: Some(Grooves::default()),
        ..Board::default()
    };
    for look in [
        &mut board.colors.track,
        &mut board.colors.home,
        &mut board.colors.start,
    ] {
        look.hue = hue;
    }
    board.colors.grooves.hue = hue;
    let workpiece = Workpiece::of(&board).unwrap();
    let scene = Scene::of(&workpiece);
    (workpiece, scene)
}

/// A point rotated clockwise by a number of sectors.
fn turned((x, y): (f64, f64), by: i64, players: u32) -> (f64, f64) {
    let (sin, cos) = Angle::turn_part(by, i64::from(players)).sin_cos();
    (x * cos + y * sin, y * cos - x * sin)
}

/// The paint of the groove or of the ring at a point.
fn paint_at(scene: &Scene, (x, y): (f64, f64)) -> Option<Paint> {
    if let Some((_, at)) = scene.groove_at(x, y) {
        return at.paint;
    }
    let rings = scene.wells_near(x, y).filter_map(|(_, well)| {
        let (paint, width) = well.paint.ring?;
        (0.0..width).contains(&well.outside(x, y)).then_some(paint)
    });
    rings.last()
}

/// Points all over a sector that are in rings and grooves, each well inside or well outside of all of them.
fn places(scene: &Scene) -> Vec<(f64, f64)> {
    let across = (-180..180).flat_map(|x| (-180..180).map(move |y| (x, y)));
    let places = across.map(|(x, y)| (f64::from(x) * 1.53 + 0.31, f64::from(y) * 1.53 + 0.17));
    let is_clear = |(x, y): (f64, f64)| {
        let around = [(0.05, 0.0), (-0.05, 0.0), (0.0, 0.05), (0.0, -0.05)];
        let own = paint_at(scene, (x, y));
        let same = |way: (f64, f64)| paint_at(scene, (x + way.0, y + way.1)) == own;
        around.into_iter().all(same)
    };
    places.filter(|place| is_clear(*place)).collect()
}

#[test]
fn a_single_color_of_rings_and_grooves_repeats_in_every_sector() {
    let color = Rgb::new(0x20, 0x60, 0xa0);
    for players in [3, 6, 8] {
        let (_, scene) = colored(players, Hue::One { color });
        let places = places(&scene);
        let met = places
            .iter()
            .filter(|place| paint_at(&scene, **place).is_some());
        assert!(met.count() > 100, "{players} players");
        for place in places {
            let own = paint_at(&scene, place);
            for by in 1..i64::from(players) {
                let next = paint_at(&scene, turned(place, by, players));
                assert_eq!(own, next, "{place:?} turned by {by} of {players}");
            }
        }
    }
}

#[test]
fn rings_of_a_player_become_the_next_players_one_sector_on() {
    let players = 6;
    let (workpiece, scene) = colored(players, Hue::Player);
    let holes = &workpiece.layout().holes;
    let mut met = 0;
    for (hole, well) in holes.iter().zip(&scene.wells) {
        let player = hole.name.id().player();
        let Some((paint, width)) = well.paint.ring else {
            continue;
        };
        let color = |player: u32| paint::tone(workpiece.players()[player as usize - 1].color);
        assert_eq!(paint.tone, color(player));
        let mouth = (well.x + well.radius + width / 2.0, well.y);
        let next = paint_at(&scene, turned(mouth, 1, players));
        // A groove may leave the bore exactly there.
        if let Some(next) = next.filter(|_| scene.groove_at(mouth.0, mouth.1).is_none()) {
            assert_eq!(next.tone, color(player % players + 1), "{}", hole.name);
            met += 1;
        }
    }
    assert!(met > 20, "{met} rings");
}
