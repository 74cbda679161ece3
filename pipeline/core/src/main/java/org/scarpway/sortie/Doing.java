package org.scarpway.sortie;

/** What a crew does at a time. */
public enum Doing {
  /** Drives along a leg. */
  DRIVE,
  /** Waits at a stop for its opening. */
  WAIT,
  /** Stays at a stop, its walks included. */
  STAY,
  /** Evening and night, until the first hour of the next day. */
  NIGHT
}
