/** A plain table of words; the first cell of a row names it. */
export function Table({ heads, rows }: { readonly heads: readonly string[]; readonly rows: readonly (readonly string[])[] }) {
  return (
    <div class="scroll" tabIndex={0} role="region" aria-label={heads[0]}>
      <table class="desk-table">
        <thead>
          <tr>
            {heads.map((head) => (
              <th key={head} scope="col">{head}</th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row, index) => (
            <tr key={index}>
              {row.map((cell, place) => (place === 0 ? <th key={place} scope="row">{cell}</th> : <td key={place}>{cell}</td>))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
