using Google.Protobuf;

namespace Portwitness.Cli.Calls;

/// <summary>Reads a file in pieces of a size that suits both disks and messages.</summary>
internal static class FilePieces
{
    private const int PieceBytes = 128 << 10;

    /// <summary>Hands over piece after piece; each is valid until the task that it was given to has ended.</summary>
    public static async Task SendAsync(Stream stream, string name, Func<ByteString, Task> send, CancellationToken cancellation)
    {
        byte[] buffer = new byte[PieceBytes];
        for (long offset = 0; ;)
        {
            int length;
            try
            {
                // Standard input cannot be cancelled; waiting for it can.
                length = await stream.ReadAsync(buffer, cancellation).AsTask().WaitAsync(cancellation);
            }
            catch (Exception exception) when (exception is IOException or UnauthorizedAccessException)
            {
                throw new CommandFailure($"{name}: reading failed at byte {offset}: {exception.Message}");
            }

            if (length == 0)
            {
                return;
            }

            await send(UnsafeByteOperations.UnsafeWrap(buffer.AsMemory(0, length)));
            offset += length;
        }
    }
}
