// A browser that runs short of room clears what pages keep in it, unless it has given its word not to.

/** Asks for that word. Some browsers ask the person, others decide by themselves; if it is no, all is as before. */
export async function askToStay(): Promise<void> {
  try {
    await navigator.storage?.persist?.();
  } catch {
    // A browser without it is a browser that says no.
  }
}

/** Whether it has not given its word. A browser that cannot say so is not suspected. */
export async function mayBeCleared(): Promise<boolean> {
  try {
    return (await navigator.storage?.persisted?.()) === false;
  } catch {
    return false;
  }
}
