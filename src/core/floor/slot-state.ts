/** What a slot of a station is doing; every second of a slot's time is counted under exactly one of these. */
export const EMPTY = 0;
/** Robot places or picks here, the door closes or opens. */
export const HANDLED = 1;
/** Loaded, and the fixture waits for more parts before it starts. */
export const PART_LOADED = 2;
export const PROCESSING = 3;
/** Finished, waiting for the robot. */
export const FINISHED = 4;
export const DOWN_WAITING = 5;
export const DOWN_REPAIR = 6;
export const STOP_WAITING = 7;
export const STOP_WORK = 8;
export const CHANGEOVER = 9;
export const SLOT_STATES = 10;

/** What the robot is doing. */
export const TRAVEL_EMPTY = 0;
export const TRAVEL_LOADED = 1;
export const HANDLING = 2;
export const HOLDING = 3;
export const WAITING = 4;
export const ROBOT_STATES = 5;
