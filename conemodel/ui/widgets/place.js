// What stands at a place of a page: made by the first call there, given the data of every later one, closed once the
// place is gone. The front end also cleans up after a call that the next one overtook: then the place still stands.

const STANDING = new WeakMap();

function standAt(component, make) {
  const root = component.parentElement, standing = STANDING.get(root) ?? make(root);
  STANDING.set(root, standing);
  standing.component = component;
  standing.take(component.data);
  return () => {
    if (root.isConnected) return;
    STANDING.delete(root);
    standing.close();
  };
}
