export type { CoursePoints, WeatherAlong } from './weather-along.ts';
