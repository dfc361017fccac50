/** Where the drawings for a wide page stand, so that their hours lie under one another [px]. */
export const WIDTH_PX = 872;
export const LEFT_PX = 112;
export const RIGHT_PX = 770;
export const LABEL_PX = 11;
export const LABEL_ROW_PX = 14;
