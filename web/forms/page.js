// The name that this open page gives itself, so that it is not told of its own changes.
export const me = Array.from(crypto.getRandomValues(new Uint8Array(9)), (byte) => byte.toString(36)).join("");
