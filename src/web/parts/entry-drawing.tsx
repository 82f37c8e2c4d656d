export function EntryDrawing(props: { readonly id: string }) {
  return <span data-entry={props.id} />;
}
