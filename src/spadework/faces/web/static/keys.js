// Keys of entries, made where the act is told: 26 letters that sort by time. getRandomValues is there on plain http too.
const LETTERS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";

export function newKey(now = Date.now()) {
  let time = "";
  for (let left = now, at = 0; at < 10; at += 1) { time = LETTERS[left % 32] + time; left = Math.floor(left / 32); }
  const luck = crypto.getRandomValues(new Uint8Array(16));
  luck[0] &= 15; // room to count on for acts told in one breath
  return time + [...luck].map((each) => LETTERS[each & 31]).join("");
}
