/** The usual cautions, where they belong. */

export const cardCaution =
  "A hold that slips is let go. Nobody holds or moves on through pain. The judge's and the venue's word comes first.";

export const weekCaution =
  "Much hanging tears skin, heavy holds and high reps after days off are where people get hurt: warm up, scale down, and stop at pain, numbness, dizziness, or dark urine in the days after, and see a doctor. The event's own rules, the venue, a qualified coach and medical advice come first.";

/** What stands on every screen and every page. */
export const caution =
  "A planning aid. The event's rules, the venue, a qualified coach and medical advice come first. Nobody holds or moves on through pain.";
