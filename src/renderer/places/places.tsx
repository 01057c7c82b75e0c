import type { ComponentType } from 'preact';
import type { PlaceName } from '../state/place.ts';
import { BenchPlace } from './bench/bench-place.tsx';
import { BuyPlace } from './buy/buy-place.tsx';
import { PlanPlace } from './plan/plan-place.tsx';
import { RoutesPlace } from './routes/routes-place.tsx';
import { ShelfPlace } from './shelf/shelf-place.tsx';

/** What each place draws. */
export const placeViews: Readonly<Record<PlaceName, ComponentType>> = {
  routes: RoutesPlace,
  plan: PlanPlace,
  shelf: ShelfPlace,
  buy: BuyPlace,
  bench: BenchPlace,
};
