export { placesHere } from './here.ts';
export { kindsOfPoint } from './spot.ts';
