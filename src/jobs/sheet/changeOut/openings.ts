/**
 * Where a run is taken up again that came out of the hole: at the barriers that a string goes on behind, since the
 * lubricator is opened for it. Of those done, whichever the sheet has.
 */
export const beforeString = {
  any: ["first-barriers", "catcher-barriers", "second-barriers", "third-barriers"],
  pull: ["second-barriers"],
  pullOrSet: ["second-barriers", "third-barriers"],
  set: ["third-barriers"],
};
