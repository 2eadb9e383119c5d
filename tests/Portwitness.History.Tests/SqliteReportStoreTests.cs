using Microsoft.Data.Sqlite;

namespace Portwitness.History.Tests;

/// <summary>Reports in a file.</summary>
public sealed class SqliteReportStoreTests : ReportStoreConformance, IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("portwitness-history-").FullName;
    private int _places;

    private protected override string Damage => "UPDATE reports SET report = X'0A05FF'";

    private protected override string DamageOfSubmissions => "UPDATE submissions SET request = X'0A05FF'";

    public void Dispose()
    {
        SqliteConnection.ClearAllPools();
        Directory.Delete(_folder, recursive: true);
    }

    [Theory]
    [MemberData(nameof(Checks))]
    public Task Store_Conforms(string check) => CheckAsync(check);

    [Fact]
    public async Task PlacesThatCannotBe_AreRefusedWithWords()
    {
        string text = Path.Combine(_folder, "text.db");
        await File.WriteAllTextAsync(text, new string('x', 5000));

        (await Assert.ThrowsAsync<StoreException>(() => OpenAsync(_folder))).Message.Should().Contain("folder");
        (await Assert.ThrowsAsync<StoreException>(() => OpenAsync(text))).Message.Should().Contain("no database of reports");
        (await Assert.ThrowsAsync<StoreException>(() => OpenAsync(Path.Combine(text, "x.db")))).Message.Should().Contain("folder cannot be made");
    }

    private protected override Task<string> NewPlaceAsync() => Task.FromResult(Path.Combine(_folder, $"deep/{++_places}/reports.db"));

    private protected override async Task<string> DumpAsync(string place, string table)
    {
        await using SqliteConnection connection = new($"Data Source={place}");
        await connection.OpenAsync();
        await using SqliteCommand command = new($"SELECT * FROM {table}", connection);
        return await RowsAsTextAsync(command);
    }

    private protected override async Task ExecuteAsync(string place, string statement)
    {
        await using SqliteConnection connection = new($"Data Source={place}");
        await connection.OpenAsync();
        await using SqliteCommand command = new(statement, connection);
        await command.ExecuteNonQueryAsync();
    }
}
