/** A hangar that nobody has measured: walls, door and two stands in hairline. */
export function EmptyHangar() {
  return (
    <svg viewBox="0 0 460 260" aria-hidden="true">
      <g fill="none" stroke="currentColor" vectorEffect="non-scaling-stroke">
        <path d="M120 240H10V10H450V240H340M120 240v8M340 240v8M120 234h110M230 240h110" />
        <path
          strokeDasharray="6 5"
          d="M30 30H170V150H30ZM190 30H330V150H190ZM350 30H430V190H350ZM100 60V120M260 60V120"
        />
      </g>
    </svg>
  );
}
