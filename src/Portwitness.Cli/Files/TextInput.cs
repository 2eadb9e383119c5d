using System.Buffers;
using System.Text;
using Portwitness.Cli.Photos;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Files;

/// <summary>Reads labels, product files and scripts: UTF-8, of limited length.</summary>
internal static class TextInput
{
    /// <summary>What the service takes, in bytes.</summary>
    private const int MaxBytes = 1 << 20;

    private static readonly UTF8Encoding Strict = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    public static Task<string> ReadAsync(InputFile input, CancellationToken cancellation) => ReadAsync(input.Open(), input.Name, cancellation);

    /// <summary>A label, which may be a photo: then the words that are recognised on it, as a table.</summary>
    public static Task<string> ReadLabelAsync(InputFile input, PhotoReading photos, CancellationToken cancellation) =>
        ReadAsync(PhotoStream.Read(input.Open(), input.Name, photos), input.Name, cancellation);

    private static async Task<string> ReadAsync(Stream input, string name, CancellationToken cancellation)
    {
        await using Stream stream = input;
        byte[] bytes = ArrayPool<byte>.Shared.Rent(MaxBytes + 1);
        int length = await stream.ReadAtLeastAsync(bytes.AsMemory(0, MaxBytes + 1), MaxBytes + 1, throwOnEndOfStream: false, cancellation)
            .AsTask().WaitAsync(cancellation);

        // A reading that was given up may still write to it; then it is not given back.
        string text = Decode(bytes.AsSpan(0, length), name);
        ArrayPool<byte>.Shared.Return(bytes);
        return text;
    }

    private static string Decode(ReadOnlySpan<byte> bytes, string name)
    {
        if (bytes.Length > MaxBytes)
        {
            throw new CommandFailure($"{name}: longer than {MaxBytes} bytes; a label, product file or script is expected here.");
        }

        try
        {
            return Strict.GetString(bytes.StartsWith(Encoding.UTF8.Preamble) ? bytes[Encoding.UTF8.Preamble.Length..] : bytes);
        }
        catch (DecoderFallbackException exception)
        {
            throw new CommandFailure($"{name}: byte {exception.Index + 1} is not UTF-8; save the file as UTF-8.");
        }
    }
}
