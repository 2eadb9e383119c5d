using System.Runtime.InteropServices;

namespace Portwitness.Cli.Shell;

/// <summary>
/// Standard output or standard error. .NET's own streams end the process, or say nothing, where nobody reads, the disk is full, or the
/// process was started without one.
/// </summary>
internal sealed class StandardStream : Stream
{
    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(5);

    private readonly int _descriptor;
    private readonly string _name;
    private readonly Stream? _managed;
    private string? _missing;

    /// <param name="descriptor">1 or 2.</param>
    /// <param name="name">As messages name it; null where what cannot be written is dropped.</param>
    private StandardStream(int descriptor, string? name)
    {
        (_descriptor, _name, IsDropping) = (descriptor, name ?? "", name is null);
        _managed = LinuxCalls.AreThere ? null : descriptor == 1 ? Console.OpenStandardOutput() : Console.OpenStandardError();
        _missing = _managed is null && !LinuxCalls.WasGiven(descriptor) ? "it is closed" : null;
    }

    /// <summary>Whether nobody reads any more: what is written goes nowhere.</summary>
    public bool IsGone { get; private set; }

    public override bool CanRead => false;

    public override bool CanSeek => false;

    public override bool CanWrite => true;

    public override long Length => throw new NotSupportedException();

    public override long Position
    {
        get => throw new NotSupportedException();
        set => throw new NotSupportedException();
    }

    private bool IsDropping { get; }

    /// <summary>
    /// Standard input, empty where the process was started without one; standard output, whose failures are failures of the command; and standard
    /// error, whose failures nobody could be told of.
    /// </summary>
    public static (Stream Input, StandardStream Output, StandardStream Error) Open()
    {
        bool hasInput = !LinuxCalls.AreThere || LinuxCalls.WasGiven(0);
        (StandardStream output, StandardStream error) = (new StandardStream(1, "standard output"), new StandardStream(2, null));
        if (LinuxCalls.AreThere)
        {
            LinuxCalls.FillStandardDescriptors();
        }

        return (hasInput ? Console.OpenStandardInput() : Null, output, error);
    }

    /// <exception cref="OutputFailure">It cannot be written.</exception>
    public override void Write(ReadOnlySpan<byte> buffer)
    {
        if (_managed is not null)
        {
            _managed.Write(buffer);
            return;
        }

        while (!buffer.IsEmpty && !IsGone && _missing is null)
        {
            long written = LinuxCalls.Write(_descriptor, buffer, out int error);
            buffer = buffer[(int)Math.Max(written, 0)..];
            switch (error)
            {
                case 0 or LinuxCalls.Interrupted:
                    break;
                case LinuxCalls.TryAgain:
                    Thread.Sleep(Pause);
                    break;
                case LinuxCalls.BrokenPipe:
                    IsGone = true;
                    break;
                default:
                    _missing = Marshal.GetPInvokeErrorMessage(error);
                    break;
            }
        }

        if (_missing is not null && !IsDropping && !IsGone)
        {
            // Said once; what comes after is for nobody.
            IsGone = true;
            throw new OutputFailure($"{_name} cannot be written: {_missing}; send it somewhere else.", ExitCode.Unusable);
        }
    }

    public override void Write(byte[] buffer, int offset, int count) => Write(buffer.AsSpan(offset, count));

    public override ValueTask WriteAsync(ReadOnlyMemory<byte> buffer, CancellationToken cancellationToken = default)
    {
        Write(buffer.Span);
        return ValueTask.CompletedTask;
    }

    public override Task WriteAsync(byte[] buffer, int offset, int count, CancellationToken cancellationToken)
    {
        Write(buffer.AsSpan(offset, count));
        return Task.CompletedTask;
    }

    public override void Flush()
    {
    }

    public override int Read(byte[] buffer, int offset, int count) => throw new NotSupportedException();

    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    public override void SetLength(long value) => throw new NotSupportedException();
}
