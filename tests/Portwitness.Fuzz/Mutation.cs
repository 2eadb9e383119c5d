using System.Buffers.Binary;

namespace Portwitness.Fuzz;

/// <summary>Damages good inputs: what is done follows from the generator alone, so that a case can be had again.</summary>
internal static class Mutation
{
    private const int MostBytes = 1 << 16;
    private static readonly byte[][] Words =
    [
        .. new[]
        {
            "0", "-1", "9", "4294967295", "18446744073709551616", "1e999", "NaN", "\"", "{", "}", "[", "]", ":", ",", "\t", "\n", "\r\n", "$", "#",
            "0x", "FFFFFFFF", "null", "\u0000", "\uFEFF", "\u2393", "V", "mA", "SOP", "hard-reset", "\\u0000", "- ", "&a", "*a", "!!", "|", ">",
        }.Select(System.Text.Encoding.UTF8.GetBytes),
        [0xFF], [0xC3, 0x28], [0x1F, 0x8B, 0x08], [0x0A, 0x0D, 0x0D, 0x0A],
    ];

    /// <summary>A seed with one to eight changes; sometimes spliced with another.</summary>
    public static byte[] Of(byte[][] seeds, Random random)
    {
        List<byte> bytes = [.. Cut(seeds[random.Next(seeds.Length)], random)];
        for (int change = random.Next(1, 9); change > 0; change--)
        {
            Change(bytes, seeds, random);
        }

        return [.. bytes.Count <= MostBytes ? bytes : bytes.Take(MostBytes)];
    }

    // A long seed is used in parts: its beginning, which says what it is, and a stretch of the rest.
    private static byte[] Cut(byte[] seed, Random random)
    {
        if (seed.Length <= 4096 || random.Next(8) == 0)
        {
            return seed;
        }

        int from = random.Next(1024, seed.Length - 1024);
        return [.. seed[..1024], .. seed[from..Math.Min(seed.Length, from + random.Next(1, 3072))]];
    }

    private static void Change(List<byte> bytes, byte[][] seeds, Random random)
    {
        int at = random.Next(bytes.Count + 1);
        int length = Math.Min(1 << random.Next(10), bytes.Count - at);
        switch (random.Next(9))
        {
            case 0 when at < bytes.Count: // a bit
                bytes[at] ^= (byte)(1 << random.Next(8));
                break;
            case 1 when at < bytes.Count: // a byte
                bytes[at] = (byte)random.Next(256);
                break;
            case 2: // an end too early
                bytes.RemoveRange(at, bytes.Count - at);
                break;
            case 3: // something is missing
                bytes.RemoveRange(at, length);
                break;
            case 4: // something comes again, perhaps often
                byte[] again = [.. bytes.GetRange(at, length)];
                for (int times = random.Next(8) == 0 ? 200 : random.Next(1, 4); times > 0 && bytes.Count < MostBytes; times--)
                {
                    bytes.InsertRange(at, again);
                }

                break;
            case 5: // two files in one
                byte[] other = seeds[random.Next(seeds.Length)];
                int from = random.Next(other.Length);
                bytes.InsertRange(at, other[from..Math.Min(other.Length, from + (1 << random.Next(10)))]);
                break;
            case 6: // a word that means something
                bytes.InsertRange(at, Words[random.Next(Words.Length)]);
                break;
            case 7: // a lying number
                Span<byte> number = stackalloc byte[4];
                BinaryPrimitives.WriteInt32LittleEndian(number, random.Next(4) switch
                {
                    0 => int.MaxValue, 1 => -1, 2 => random.Next(), _ => 1 << random.Next(31),
                });
                for (int i = 0; i < number.Length && at + i < bytes.Count; i++)
                {
                    bytes[at + i] = number[i];
                }

                break;
            default: // a longer or another number in text
                if (bytes.FindIndex(at, b => b is >= (byte)'0' and <= (byte)'9') is >= 0 and int digit)
                {
                    bytes.InsertRange(digit, Enumerable.Repeat((byte)random.Next('0', '9' + 1), random.Next(1, 24)));
                }

                break;
        }
    }
}
