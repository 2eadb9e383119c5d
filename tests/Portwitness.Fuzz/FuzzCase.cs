namespace Portwitness.Fuzz;

/// <summary>One damaged input, which its number makes again.</summary>
/// <param name="Reader">What reads it.</param>
/// <param name="Number">Whence everything about it follows.</param>
internal sealed record FuzzCase(FuzzedReader Reader, long Number)
{
    /// <summary>No case takes a hundredth of it; one that does hangs.</summary>
    public static readonly TimeSpan Hang = TimeSpan.FromSeconds(30);

    // A reader's tables and buffers, and what an input of 64 KiB can become: a gzip of it 64 MiB of text, in pieces.
    private const long MostAllocated = 256 << 20;

    /// <summary>The damaged input.</summary>
    public byte[] Input() => Mutation.Of(Reader.Seeds, new Random(Seed));

    /// <summary>Reads it; what was wrong with that, or null.</summary>
    public string? Run()
    {
        Random random = new(Seed);
        byte[] input = Mutation.Of(Reader.Seeds, random);
        Checks checks = new();
        long before = GC.GetAllocatedBytesForCurrentThread();
        using Timer hung = new(_ => Environment.FailFast($"{this} hangs"), null, Hang, Timeout.InfiniteTimeSpan);
        try
        {
            Reader.Read(input, random, checks);
        }
#pragma warning disable CA1031 // Whatever escapes is what is looked for.
        catch (Exception escaped)
#pragma warning restore CA1031
        {
            return $"{this}: {escaped}";
        }

        long allocated = GC.GetAllocatedBytesForCurrentThread() - before;
        checks.Expect(allocated < MostAllocated, $"{allocated >> 20} MiB for {input.Length} bytes");
        return checks.Broken is null ? null : $"{this}: {checks.Broken}";
    }

    /// <summary>As it is run again.</summary>
    public override string ToString() => $"--reader {Reader.Name} --case {Number}";

    private int Seed => unchecked((int)(Number ^ (Number >> 31)));
}
