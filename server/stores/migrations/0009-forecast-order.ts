/** In which order the forecasts came, whatever the clock said when they did; of those that are there, as it said. */
export const forecastOrder = `
ALTER TABLE forecast ADD COLUMN number INTEGER CHECK (number IS NULL OR number >= 1);
UPDATE forecast SET number = (
  SELECT count(*) FROM forecast AS other
  WHERE (other.added_at_epoch_ms, other.hash) <= (forecast.added_at_epoch_ms, forecast.hash)
);
CREATE UNIQUE INDEX forecast_number ON forecast (number);
`;
