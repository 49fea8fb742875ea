export { placesHere, standingOn } from './here.ts';
export { kindsOfPoint } from './spot.ts';
