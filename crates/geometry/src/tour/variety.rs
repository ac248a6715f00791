//! The number of routes that have each leg, and what their variety loses by a change of one of them.
//!
//! Routes that are alike have no legs to share. So a change of a route is judged by what it gains for the entropy of all
//! routes that it costs (Nagata and Kobayashi, 2013).

use super::links::Links;

/// A leg at one of its two places that came to a route or went.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Change {
    pub(super) place: u32,
    pub(super) to: u32,
    pub(super) came: bool,
}

/// The legs of several routes.
pub(super) struct Variety {
    /// By place, the places at the other ends of legs, and the number of routes that have each leg.
    legs: Vec<Vec<(u32, u32)>>,
    /// By number of routes with a leg, the part of the leg in the entropy; not to scale.
    worths: Vec<f64>,
}

impl Variety {
    pub(super) fn new(places: u32, routes: &[Links]) -> Self {
        let worth = |routes| {
            let routes = f64::from(routes);
            -routes * libm::log(f64::max(routes, 1.0))
        };
        let mut variety = Self {
            legs: vec![Vec::new(); places as usize],
            worths: (0..=routes.len() as u32).map(worth).collect(),
        };
        for route in routes {
            for place in 0..places {
                for to in route.of(place) {
                    let came = true;
                    variety.note(Change { place, to, came });
                }
            }
        }
        variety
    }

    /// The entropy that the changes of a route cost; less than nothing where they add to it.
    pub(super) fn loss(&self, changes: &[Change]) -> f64 {
        let worth = |routes: u32| {
            self.worths
                .get(routes as usize)
                .copied()
                .unwrap_or_default()
        };
        let loss = |change: &Change| {
            let before = self.routes_with(change);
            let after = if change.came { before + 1 } else { before - 1 };
            worth(before) - worth(after)
        };
        changes.iter().map(loss).sum()
    }

    /// Notes the changes of a route.
    pub(super) fn update(&mut self, changes: &[Change]) {
        for change in changes {
            self.note(*change);
        }
    }

    fn note(&mut self, Change { place, to, came }: Change) {
        let Some(legs) = self.legs.get_mut(place as usize) else {
            return;
        };
        match legs.iter_mut().find(|leg| leg.0 == to) {
            Some((_, routes)) if came => *routes += 1,
            Some((_, routes)) => *routes -= 1,
            None => legs.push((to, 1)),
        }
    }

    fn routes_with(&self, change: &Change) -> u32 {
        let legs = self.legs.get(change.place as usize);
        let leg = legs.and_then(|legs| legs.iter().find(|leg| leg.0 == change.to));
        leg.map_or(0, |(_, routes)| *routes)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use testkit::assert_near;

    fn entropy(variety: &Variety) -> f64 {
        let legs = variety.legs.iter().flatten();
        legs.map(|(_, routes)| variety.worths[*routes as usize])
            .sum()
    }

    #[test]
    fn the_loss_is_what_the_entropy_shrinks_by() {
        let orders = [[0, 1, 2, 3, 4, 5], [0, 2, 1, 3, 4, 5], [0, 1, 2, 4, 3, 5]];
        let mut variety = Variety::new(6, &orders.map(|order| Links::new(&order)));
        let change = |place, to, came| Change { place, to, came };
        // The second route becomes like the first: 0-2 and 1-3 go, 0-1 and 2-3 come.
        let changes = [(0, 2, false), (1, 3, false), (0, 1, true), (2, 3, true)]
            .map(|(one, other, came)| [change(one, other, came), change(other, one, came)]);
        let changes = changes.as_flattened();
        let before = entropy(&variety);
        let loss = variety.loss(changes);
        variety.update(changes);
        assert!(loss > 0.0);
        assert_near!(before - entropy(&variety), loss, 1e-12);
    }

    #[test]
    fn a_leg_that_no_other_route_has_adds_to_the_variety() {
        let alike = [[0, 1, 2, 3, 4], [0, 1, 2, 3, 4]].map(|order| Links::new(&order));
        let variety = Variety::new(5, &alike);
        let (place, came) = (0, true);
        assert!(
            variety.loss(&[
                Change {
                    place,
                    to: 1,
                    came: false
                },
                Change { place, to: 2, came }
            ]) < 0.0
        );
    }
}
