using System.Security.Cryptography;
using Portwitness.Contracts.V1;

namespace Portwitness.History.Tests;

/// <summary>What is uploaded.</summary>
public abstract partial class ReportStoreConformance
{
    private static readonly byte[] Content = [.. Enumerable.Range(0, 1000).Select(static number => (byte)(number * 7))];

    private static string Hash => Convert.ToHexStringLower(SHA256.HashData(Content));

    private async Task Upload_GoesOnWhereItStopped()
    {
        string place = await NewPlaceAsync();
        await using (IReportStore before = await OpenAsync(place))
        {
            (await before.Uploads.BeginAsync("bench", Hash, Content.Length, default)).Should().Be((0, false));
            (await before.Uploads.AppendAsync("bench", Hash, 0, Content.AsMemory(0, 300), default)).Should().BeTrue();
        }

        await using IReportStore store = await OpenAsync(place);
        (await store.Uploads.BeginAsync("bench", Hash, Content.Length, default)).Should().Be((300, false));
        (await store.Uploads.AppendAsync("bench", Hash, 0, Content.AsMemory(0, 300), default)).Should().BeFalse("that is there already");
        (await store.Uploads.AppendAsync("bench", Hash, 300, new byte[701], default)).Should().BeFalse("that is too much");
        (await store.Uploads.AppendAsync("bench", Hash, 300, Content.AsMemory(300), default)).Should().BeTrue();
        (await store.Uploads.FindMissingAsync([Hash], default)).Should().Equal(Hash);
        (await ReadAsync(store, Hash)).Should().BeEmpty("it is not complete");

        (await store.Uploads.CompleteAsync("bench", Hash, default)).Should().BeTrue();

        (await ReadAsync(store, Hash)).Should().Equal(Content);
        (await store.Uploads.FindMissingAsync([Hash, new string('0', 64)], default)).Should().Equal(new string('0', 64));
        (await store.Uploads.BeginAsync("another", Hash, 5, default)).Should().Be((Content.Length, true));
    }

    private async Task Upload_ThatIsSomethingElse_IsDropped()
    {
        await using IReportStore store = await OpenAsync(await NewPlaceAsync());
        string other = new('a', 64);
        await store.Uploads.BeginAsync("bench", other, Content.Length, default);
        await store.Uploads.AppendAsync("bench", other, 0, Content, default);

        (await store.Uploads.CompleteAsync("bench", other, default)).Should().BeFalse();

        (await ReadAsync(store, other)).Should().BeEmpty();
        (await store.Uploads.BeginAsync("bench", other, Content.Length, default)).Should().Be((0, false));
        await store.Uploads.AppendAsync("bench", other, 0, Content.AsMemory(0, 10), default);
        (await store.Uploads.BeginAsync("bench", other, 10, default)).Should().Be((0, false), "another length is another file");
    }

    private async Task Uploads_OfTwoClients_DoNotMix()
    {
        await using IReportStore store = await OpenAsync(await NewPlaceAsync());
        foreach (string client in new[] { "bench", "stranger" })
        {
            await store.Uploads.BeginAsync(client, Hash, Content.Length, default);
        }

        await store.Uploads.AppendAsync("stranger", Hash, 0, new byte[Content.Length], default);
        await store.Uploads.AppendAsync("bench", Hash, 0, Content, default);

        (await store.Uploads.CompleteAsync("stranger", Hash, default)).Should().BeFalse();
        (await store.Uploads.CompleteAsync("bench", Hash, default)).Should().BeTrue();
        (await ReadAsync(store, Hash)).Should().Equal(Content);
    }

    private async Task UploadsThatAreCompletedAtOnce_AllSucceed()
    {
        string place = await NewPlaceAsync();
        IReportStore[] stores = await Task.WhenAll(Enumerable.Range(0, 6).Select(_ => Task.Run(() => OpenAsync(place))));
        for (int round = 0; round < 10; round++)
        {
            byte[] content = [.. Content, (byte)round];
            string hash = Convert.ToHexStringLower(SHA256.HashData(content));
            foreach (string client in new[] { "a", "b", "c" })
            {
                await stores[0].Uploads.BeginAsync(client, hash, content.Length, default);
                await stores[0].Uploads.AppendAsync(client, hash, 0, content.AsMemory(0, 500), default);
                await stores[0].Uploads.AppendAsync(client, hash, 500, content.AsMemory(500), default);
            }

            // Two calls of each of three clients.
            bool[] complete = await Task.WhenAll(stores.Select((store, number) => Task.Run(() => store.Uploads.CompleteAsync($"{"abc"[number / 2]}", hash, default))));

            complete.Should().AllBeEquivalentTo(true);
            (await ReadAsync(stores[1], hash)).Should().Equal(content);
            (await stores[0].Uploads.BeginAsync("a", hash, content.Length, default)).Should().Be((content.Length, true));
        }

        (await stores[0].Uploads.PruneAsync(DateTimeOffset.UtcNow.AddDays(1), DateTimeOffset.UtcNow.AddDays(1), default)).Should().Be(10, "each is there once");
        foreach (IReportStore store in stores)
        {
            await store.DisposeAsync();
        }
    }

    private async Task Uploads_AreDropped_WhenNobodyNeedsThem()
    {
        await using IReportStore store = await OpenAsync(await NewPlaceAsync());
        await store.Uploads.BeginAsync("bench", Hash, Content.Length, default);
        await store.Uploads.AppendAsync("bench", Hash, 0, Content, default);
        await store.Uploads.CompleteAsync("bench", Hash, default);
        await store.Uploads.BeginAsync("bench", new string('b', 64), 10, default);
        SubmitRequest request = Request("p", "");
        request.Files.Add(new SubmittedFile { File = "f", Sha256 = Hash });
        await store.Submissions.AddAsync("key", request, default);
        DateTimeOffset later = DateTimeOffset.UtcNow.AddSeconds(1);

        (await store.Uploads.PruneAsync(later.AddDays(-1), later.AddDays(-1), default)).Should().Be(0, "all is new");
        (await store.Uploads.PruneAsync(later, later, default)).Should().Be(1, "a submission waits for the other");
        (await ReadAsync(store, Hash)).Should().Equal(Content);
        await store.Submissions.FinishAsync("key", 1, default);
        (await store.Uploads.PruneAsync(later, later, default)).Should().Be(1);
        (await ReadAsync(store, Hash)).Should().BeEmpty();
    }

    private static async Task<byte[]> ReadAsync(IReportStore store, string hash)
    {
        List<byte> read = [];
        await foreach (byte[] piece in store.Uploads.ReadAsync(hash, default))
        {
            read.AddRange(piece);
        }

        return [.. read];
    }
}
