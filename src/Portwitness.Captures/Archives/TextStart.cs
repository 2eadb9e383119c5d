using Portwitness.Captures.Input;

namespace Portwitness.Captures.Archives;

/// <summary>
/// Looks at the first bytes of a text: a byte order mark is passed over, gzip is unpacked, and what is no UTF-8 is refused.
/// </summary>
internal sealed class TextStart(IInputReader content, FaultLog faults, bool unpacked = false) : IInputReader
{
    private const int BytesToTell = 3;

    private readonly byte[] _start = new byte[BytesToTell];
    private int _held;
    private bool _decided;
    private bool _refused;
    private IInputReader _next = content;

    public void Write(ReadOnlySpan<byte> piece)
    {
        if (!_decided)
        {
            int taken = Math.Min(piece.Length, BytesToTell - _held);
            piece[..taken].CopyTo(_start.AsSpan(_held));
            _held += taken;
            piece = piece[taken..];
            if (_held < BytesToTell)
            {
                return;
            }

            Decide();
        }

        HandOn(piece);
    }

    public void Complete()
    {
        if (!_decided)
        {
            Decide();
        }

        if (!_refused)
        {
            _next.Complete();
        }
    }

    /// <summary>Gives up an input that is not read to its end.</summary>
    public void Close() => (_next as IDisposable)?.Dispose();

    private void Decide()
    {
        _decided = true;
        ReadOnlySpan<byte> start = _start.AsSpan(0, _held);
        if (!unpacked && GzipInput.IsLikely(start))
        {
            _next = new GzipInput(new TextStart(_next, faults, unpacked: true), faults);
        }
        else if (start.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xFE]) || start.StartsWith((ReadOnlySpan<byte>)[0xFE, 0xFF]) || start.Contains((byte)0))
        {
            _refused = true;
            faults.Report(1, 1, FaultCodes.NotUtf8, FaultText.TableNotUtf8);
        }

        HandOn(start.StartsWith("\uFEFF"u8) ? start[BytesToTell..] : start);
    }

    private void HandOn(ReadOnlySpan<byte> piece)
    {
        if (!_refused && !piece.IsEmpty)
        {
            _next.Write(piece);
        }
    }
}
